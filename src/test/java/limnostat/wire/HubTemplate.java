package limnostat.wire;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.MissingNode;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a hub makes of a template, for the few forms that we use; any other one is an error. Values
 * are written as the hub's template language writes them: {@code True}, {@code None}.
 */
public final class HubTemplate {
  private static final Pattern PLACE = Pattern.compile("\\{\\{ (.*?) }}");
  private static final Pattern EXPRESSION =
      Pattern.compile("(value|value_json((?:\\.[a-z0-9_]+)+))(?: in \\[('[^']*'(?:, '[^']*')*)])?");

  private HubTemplate() {}

  /**
   * @throws AssertionError the template is of another form, or what it names is not there
   */
  public static String render(String template, String payload) {
    StringBuilder rendered = new StringBuilder();
    Matcher places = PLACE.matcher(template);
    int found = 0;
    while (places.find()) {
      places.appendReplacement(
          rendered, Matcher.quoteReplacement(evaluate(places.group(1), payload)));
      found++;
    }
    places.appendTail(rendered);
    if (found == 0) {
      throw new AssertionError("a template without a place: " + template);
    }
    return rendered.toString();
  }

  private static String evaluate(String expression, String payload) {
    Matcher parts = EXPRESSION.matcher(expression);
    if (!parts.matches()) {
      throw new AssertionError("a form that we do not use: " + expression);
    }
    String value = parts.group(2) == null ? payload : at(parts.group(2), payload);
    if (parts.group(3) == null) {
      return value;
    }
    List<String> among =
        Arrays.stream(parts.group(3).split(", ")).map(t -> t.substring(1, t.length() - 1)).toList();
    return among.contains(value) ? "True" : "False";
  }

  private static String at(String path, String payload) {
    JsonNode node;
    try {
      node = Json.MAPPER.readTree(payload).at(path.replace('.', '/'));
    } catch (JsonProcessingException e) {
      throw new AssertionError("not JSON: " + payload, e);
    }
    if (node instanceof MissingNode) {
      throw new AssertionError("no " + path + " in " + payload);
    }
    if (node.isBoolean()) {
      return node.booleanValue() ? "True" : "False";
    }
    return node.isNull() ? "None" : node.asText();
  }
}
