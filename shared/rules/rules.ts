// The rules in the order their findings are listed. Adding a rule is one file and one line here.
import { LIMITS } from "./limits.ts";
import { MISSING_PHOTOS } from "./missing-photos.ts";
import { MISSING_READINGS } from "./missing-readings.ts";
import { PHOTO_DOUBTS } from "./photo-doubts.ts";
import type { Rule } from "./rule.ts";

export const RULES: readonly Rule[] = [LIMITS, MISSING_READINGS, MISSING_PHOTOS, PHOTO_DOUBTS];
