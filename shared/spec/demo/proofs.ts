// The demo engine's proofs. Invented.
import type { Spec } from "../spec.ts";

export const DEMO_PROOFS: Spec["proofs"] = [];
