// The demo engine's expected. Invented.
import type { Spec } from "../spec.ts";

export const DEMO_EXPECTED: Spec["expected"] = [];
