/**
 * JSON documents, their schemas, and discovery. Commands and bench lines come in; state, alarms,
 * events and the saved state go out. Only this package knows the names of fields. MQTT, {@code
 * bench} and the ledger share these documents, and none of them owns the documents.
 *
 * <ul>
 *   <li><b>Every document has a schema, written by hand</b> ({@code
 *       src/main/resources/limnostat/schema}). A schema generated from the code would repeat any
 *       mistake in the code. The shared definitions are in {@code vocabulary.json} alone, so a new
 *       cause, state or control level is one line there, and {@code SchemasTest} names the missing
 *       one. A third-party validator checks everything that any test sends against the schemas. A
 *       new field needs a change to the writer, the schema and the manual page.
 *   <li><b>The shape of the AsyncAPI document</b> was checked once against the schema that its
 *       initiative publishes (3.0.0, 380 kB, not kept here). {@code TopicsSentTest} and {@code
 *       TopicsOfTheLinkTest} check that it matches what the program does. It is in JSON because the
 *       program has no YAML writer, and JSON is valid YAML.
 *   <li><b>A command is strict UTF-8 without unpaired surrogates.</b> The library would also guess
 *       UTF-16 and UTF-32. An unpaired surrogate in an answer would break other programs' strict
 *       readers.
 *   <li><b>One list of values ({@code Point}) and of settings ({@code Control})</b> defines both
 *       the hub's document and the Homie device. Both read the state document by the same paths, so
 *       no value is computed twice. The hub's controls send the existing commands through
 *       templates. Homie's {@code set} topics are translated ({@code HomieDevice.command}) and then
 *       handled like any other command.
 *   <li><b>The hub's alarm is on for five of the nine states</b>, those that need a person. An
 *       alarm that is shelved, suppressed or out of service is off. The whole alarm document is
 *       available as attributes. Shelving is not offered, because the hub has no entity that
 *       combines an alarm with a duration.
 *   <li><b>A hub setting without a value to show</b> (the numbers of a water test) is optimistic:
 *       there is no topic for what somebody entered.
 *   <li><b>The hub's birth message is ignored.</b> The discovery document and the states are
 *       retained, so the hub receives them when it subscribes.
 *   <li><b>With Homie the description depends only on the configuration</b>, so it never changes
 *       while the device is {@code ready}. {@code $target}, {@code $alert} and {@code $log} are not
 *       used. Everything uses QoS 1.
 *   <li><b>A state that another version saved is restored part by part</b> ({@code
 *       StateMigration}). It is laid over a fresh state field by field and read as strictly as a
 *       complete one, so a new field starts with its initial value. An upgrade that lost the whole
 *       state would use up the caps for a day and have to learn the pool again. Only the account is
 *       never filled in, because a renamed field would count as nothing fed. Without the account,
 *       the interlocks or the alarms, the caps count as used up. A field may be added to the saved
 *       state. One that is renamed goes into the list of renamed fields there; one that changes its
 *       meaning gets another name.
 * </ul>
 */
package limnostat.wire;
