import bellTransformer from "./bell-transformer.json";
import buzzerFilter from "./buzzer-filter.json";
import doorLoopBridge from "./door-loop-bridge.json";
import fanController from "./fan-controller.json";
import intercomLine from "./intercom-line.json";
import lineMixer from "./line-mixer.json";
import moistureProbe from "./moisture-probe.json";
import solarTrickleCharger from "./solar-trickle-charger.json";
import tankLevelSensor from "./tank-level-sensor.json";
import threeSources from "./three-sources.json";

/** A circuit of our own, as the JSON value of a circuit file; `readCircuitFile` reads it. */
export type Example = { readonly id: string; readonly title: string; readonly json: unknown };

/**
 * The example circuits, in the order in which people meet them; the first is the demo room's. An example's id is the
 * name of its file. README.md beside this file works them by hand.
 */
export const EXAMPLES: readonly Example[] = [
  example("three-sources", threeSources),
  example("solar-trickle-charger", solarTrickleCharger),
  example("tank-level-sensor", tankLevelSensor),
  example("door-loop-bridge", doorLoopBridge),
  example("fan-controller", fanController),
  example("moisture-probe", moistureProbe),
  example("line-mixer", lineMixer),
  example("buzzer-filter", buzzerFilter),
  example("intercom-line", intercomLine),
  example("bell-transformer", bellTransformer),
];

function example(id: string, json: { readonly title: string }): Example {
  return { id, title: json.title, json };
}
