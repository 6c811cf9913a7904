// What each demo picture shows and how it was "taken": scene, surface, camera, light, card in the frame.
import { type Card, cardText } from "../../shared/photo/card.ts";
import type { Ground } from "./kit.ts";
import type { Random } from "./random.ts";
import { bluePrint, gaugeStrip } from "./scenes/bearings.ts";
import { hatch, ringGap, score } from "./scenes/bores.ts";
import { frontMark, timingMarks } from "./scenes/pistons.ts";
import { capMarks, cotters, dipper } from "./scenes/rods.ts";
import type { Lying } from "./tag-card.ts";

export interface Recipe {
  readonly file: string;
  readonly scene: (random: Random) => string;
  readonly ground: Ground;
  /** Camera: turn in degrees, zoom, shift of the subject from the middle in px. */
  readonly turn: number;
  readonly zoom: number;
  readonly shift: readonly [number, number];
  /** Where the lamp stands, and whether it is a warm one. */
  readonly lamp: readonly [number, number, boolean];
  readonly card?: Card & Lying;
  /** Gaussian blur in px: 0.6 for a sharp picture, much more for one out of focus. */
  readonly blur?: number;
}

type Camera = Pick<Recipe, "ground" | "turn" | "zoom" | "shift" | "lamp">;
const camera = (ground: Ground, turn: number, zoom: number, shift: readonly [number, number], lamp: Recipe["lamp"]): Camera => ({
  ground,
  turn,
  zoom,
  shift,
  lamp,
});

const rodCard = (rod: number, step: "teardown" | "final_torque", subject: string, lying: Lying) => ({
  place: { rod },
  step,
  subject,
  ...lying,
});

export const RECIPES: readonly Recipe[] = [
  {
    file: "cap-marks-1.jpg",
    scene: (r) => capMarks(1, r),
    ...camera("bench", -14, 1.2, [60, 110], [420, 260, true]),
    card: rodCard(1, "teardown", "cap_marks", { x: 1360, y: 300, width: 320, turn: 9 }),
  },
  {
    file: "cap-marks-2.jpg",
    scene: (r) => capMarks(2, r),
    ...camera("bench", 24, 1.32, [-130, 60], [1180, 300, true]),
    card: rodCard(2, "teardown", "cap_marks", { x: 1370, y: 900, width: 300, turn: -16, skew: 6 }),
  },
  {
    file: "cap-marks-3.jpg",
    scene: (r) => capMarks(3, r),
    ...camera("rag", 196, 1.12, [40, -120], [800, 900, false]),
    card: rodCard(3, "teardown", "cap_marks", { x: 270, y: 330, width: 310, turn: -7 }),
  },
  {
    file: "cap-marks-4.jpg",
    scene: (r) => capMarks(4, r),
    ...camera("board", -68, 1.24, [-60, 20], [380, 820, true]),
    card: rodCard(4, "teardown", "cap_marks", { x: 1310, y: 900, width: 330, turn: 14 }),
  },
  { file: "timing-marks.jpg", scene: () => timingMarks(), ...camera("tray", 6, 1.16, [20, -30], [560, 260, false]) },
  { file: "score-3.jpg", scene: (r) => score(3, r), ...camera("tray", -4, 1.02, [0, 10], [1040, 420, true]) },
  {
    file: "blue-print-1.jpg",
    scene: () => bluePrint(1, 31),
    ...camera("bench", -9, 1.02, [-90, 10], [560, 420, true]),
    card: { place: { main: 1 }, step: "main_bearings", subject: "blue_print", x: 1420, y: 965, width: 270, turn: 5 },
  },
  { file: "blue-print-3.jpg", scene: () => bluePrint(3, 77), ...camera("rag", 78, 0.98, [40, 0], [1100, 760, false]) },
  { file: "bore-hatch-1.jpg", scene: (r) => hatch(1, r), ...camera("tray", 3, 1.04, [60, 0], [520, 340, false]) },
  { file: "bore-hatch-2.jpg", scene: (r) => hatch(2, r), ...camera("tray", 96, 1.1, [-140, 60], [1180, 640, true]) },
  { file: "bore-hatch-3.jpg", scene: (r) => hatch(3, r), ...camera("tray", -172, 1.22, [-20, -130], [760, 980, true]) },
  { file: "bore-hatch-4.jpg", scene: (r) => hatch(4, r), ...camera("tray", -58, 1.0, [150, 80], [300, 860, false]) },
  { file: "ring-gap-2.jpg", scene: (r) => ringGap(2, ".012", r), ...camera("tray", 8, 1.06, [-40, -70], [640, 420, true]) },
  { file: "ring-gap-3.jpg", scene: (r) => ringGap(3, ".013", r), ...camera("tray", -118, 1.04, [120, 30], [1200, 380, false]) },
  { file: "front-mark-1.jpg", scene: (r) => frontMark(1, r), ...camera("bench", -8, 1.12, [-60, 20], [520, 300, true]) },
  { file: "front-mark-2.jpg", scene: (r) => frontMark(2, r), ...camera("plate", 41, 1.02, [150, -40], [1120, 860, false]) },
  {
    file: "front-mark-3.jpg",
    scene: (r) => frontMark(3, r),
    ...camera("rag", -93, 1.2, [-190, 60], [900, 250, false]),
    card: { place: { cylinder: 3 }, step: "piston_assembly", subject: "front_mark", x: 1390, y: 300, width: 300, turn: 12 },
  },
  { file: "front-mark-4.jpg", scene: (r) => frontMark(4, r), ...camera("board", 152, 1.08, [40, 90], [340, 420, true]) },
  { file: "gauge-strip-1.jpg", scene: (r) => gaugeStrip(1, 2.0, r), ...camera("bench", -6, 1.0, [10, 20], [620, 340, true]) },
  {
    file: "gauge-strip-2-blurred.jpg",
    scene: (r) => gaugeStrip(2, 2.4, r),
    ...camera("plate", 9, 1.18, [-70, -60], [1180, 420, true]),
    blur: 11,
  },
  { file: "gauge-strip-2.jpg", scene: (r) => gaugeStrip(2, 2.4, r), ...camera("plate", 14, 1.06, [60, 40], [1120, 460, true]) },
  { file: "gauge-strip-3.jpg", scene: (r) => gaugeStrip(3, 1.2, r), ...camera("rag", 88, 1.08, [-20, 0], [420, 900, false]) },
  {
    file: "cotter-1.jpg",
    scene: (r) => cotters(1, r),
    ...camera("plate", -5, 1.0, [0, -40], [520, 760, true]),
    card: rodCard(1, "final_torque", "cotter", { x: 830, y: 960, width: 290, turn: -5 }),
  },
  { file: "cotter-2.jpg", scene: (r) => cotters(2, r), ...camera("bench", 17, 1.14, [-40, 20], [1240, 720, true]) },
  {
    file: "cotter-4.jpg",
    scene: (r) => cotters(4, r),
    ...camera("rag", 172, 1.04, [30, 60], [780, 320, false]),
    card: rodCard(4, "final_torque", "cotter", { x: 210, y: 250, width: 280, turn: 11 }),
  },
  { file: "dipper-1.jpg", scene: (r) => dipper(1, true, r), ...camera("tray", -3, 0.96, [40, -20], [480, 300, true]) },
  { file: "dipper-2.jpg", scene: (r) => dipper(2, true, r), ...camera("tray", 6, 1.12, [190, -110], [1240, 360, true]) },
  { file: "dipper-3.jpg", scene: (r) => dipper(3, true, r), ...camera("plate", -9, 1.05, [-200, -60], [820, 900, false]) },
  { file: "dipper-4-trailing.jpg", scene: (r) => dipper(4, false, r), ...camera("tray", 4, 1.22, [-60, -190], [300, 760, true]) },
  { file: "dipper-4.jpg", scene: (r) => dipper(4, true, r), ...camera("bench", -13, 0.92, [110, 60], [1160, 880, true]) },
];

/** Texts of the cards drawn into a picture, for checks. */
export const cardTexts = (): ReadonlyMap<string, string> =>
  new Map(RECIPES.flatMap(({ file, card }) => (card ? [[file, cardText(card)] as const] : [])));
