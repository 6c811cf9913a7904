// Worked examples of sheets, by the kind they show: each an invented engine whose whole job is run by a test.
import { DEMO_SPEC } from "../demo-engine.ts";
import type { Spec } from "../spec.ts";
import { EXAMPLE_SIX } from "./six.ts";
import { EXAMPLE_TWIN } from "./twin.ts";

export const EXAMPLES = { four: DEMO_SPEC, six: EXAMPLE_SIX, twin: EXAMPLE_TWIN } as const satisfies Record<string, Spec>;
