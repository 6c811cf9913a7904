// The demo engine's limits. Invented.
import type { Spec } from "../spec.ts";

export const DEMO_LIMITS: Spec["limits"] = [];
