/**
 * JSON: commands and bench lines in; state, alarms, events and the saved state out; their schemas;
 * discovery. The one place that knows the names of fields. MQTT, {@code bench} and the ledger share
 * these documents, and they belong to none of them.
 *
 * <ul>
 *   <li><b>Every document has a schema, written by hand</b> ({@code
 *       src/main/resources/limnostat/schema}). Made from the code, a schema would agree with any
 *       mistake in it. The words that they share are in {@code vocabulary.json} alone, so a new
 *       cause, state or control level is one line there, and {@code SchemasTest} names it. What any
 *       test sends is held against the schemas by a validator of others. A new field needs the
 *       writer, the schema and the page.
 *   <li><b>The shape of the AsyncAPI document</b> was checked once with the schema that its
 *       initiative publishes (3.0.0, 380 kB, not kept here). {@code TopicsSentTest} and {@code
 *       TopicsOfTheLinkTest} hold it to what the program does. It is JSON, since the program has no
 *       writer of YAML and JSON is YAML.
 *   <li><b>A command is strict UTF-8 of whole characters.</b> The library would guess UTF-16 and
 *       UTF-32, and half a surrogate pair in an answer chokes the strict readers of others.
 *   <li><b>One list of values ({@code Point}) and of settings ({@code Control})</b> makes the hub's
 *       document and the Homie device. Both read the state document by the same paths, so no value
 *       is computed twice. The hub's controls send the commands that there are, through templates.
 *       Homie's {@code set} topics are translated ({@code HomieDevice.command}) and then go the way
 *       of every command.
 *   <li><b>The hub's alarm is on for five of the nine states</b>, those that ask for a person. One
 *       that is shelved, suppressed or out of service is off. Its whole document is there as
 *       attributes. Shelving is not offered, as the hub has no entity for an alarm with a time.
 *   <li><b>A setting of the hub without a value to show</b> (a water test's numbers) is optimistic:
 *       there is no topic for what somebody typed.
 *   <li><b>The hub's birth message is not listened to.</b> Its document and the states are
 *       retained, so that it has them when it subscribes.
 *   <li><b>With Homie the description follows from the configuration</b> and so never changes under
 *       {@code ready}. {@code $target}, {@code $alert} and {@code $log} are not used. QoS 1
 *       throughout.
 *   <li><b>A state that another version saved is taken up part by part</b> ({@code
 *       StateMigration}). It is laid over a fresh one field by field and read as strictly as a
 *       whole one, so a new field begins as on the first day. An upgrade that forgot everything
 *       would use up the caps for a day and learn the pool anew. The account alone is never filled
 *       in, since a renamed field would count as nothing given. Without the account, the interlocks
 *       or the alarms the caps count as used up. So a field may be added to the saved state, but
 *       one that is renamed or changes its meaning is lost with its part: give it another name.
 * </ul>
 */
package limnostat.wire;
