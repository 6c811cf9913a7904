// A build's book as pieces of a page: readings with their verdicts, photos, words, newest first.
import type { LoggedPhoto, LoggedReading } from "../../shared/build/index.ts";
import { placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { Finding } from "../../shared/rules/finding.ts";
import type { OpenedBuild } from "../builds/builds.ts";
import { html, type Markup } from "./html.ts";

interface Entry {
  readonly at: string;
  readonly order: number;
  readonly body: Markup;
}

const STATUS_WORDS = {
  counted: undefined,
  waiting: "waits for a yes",
  rejected: "rejected",
  struck: "struck",
  superseded: "measured again later",
} as const;

/**
 * When the shop received what happened at `at` by its device's clock, in the zone that the device named: "10:12", with its day
 * where that is another.
 * @param at ISO 8601 with its offset
 * @param receivedAt ISO 8601, UTC
 */
export function receivedBeside(at: string, receivedAt: string): string {
  const [, sign = "+", hours = "0", minutes = "0"] = /([+-])(\d\d):(\d\d)$/.exec(at) ?? [];
  const shift = Number(`${sign}1`) * (Number(hours) * 60 + Number(minutes)) * 60_000;
  const there = new Date(Date.parse(receivedAt) + shift).toISOString();
  const day = there.slice(0, 10) === at.slice(0, 10) ? "" : `${there.slice(0, 10)} `;
  return `${day}${there.slice(11, 16)}`;
}

const stamp = (at: string, receivedAt: string | undefined) =>
  html`<span class="small">${at.slice(0, 10)} ${at.slice(11, 16)}${receivedAt !== undefined && html`, received ${receivedBeside(at, receivedAt)}`}</span>`;

/** "cylinder 2, top ring", or the engine as a whole. */
const where = (place: Parameters<typeof placeLabel>[0]) => placeLabel(place) || "the engine";

/** Findings by the event they rest on, worst first. */
function findingsByEvent(findings: readonly Finding[]): Map<string, Finding[]> {
  const byEvent = new Map<string, Finding[]>();
  for (const finding of findings) for (const id of finding.evidence) byEvent.set(id, [...(byEvent.get(id) ?? []), finding]);
  return byEvent;
}

export const verdictLine = (finding: Finding): Markup =>
  html`<p class="entry ${finding.verdict}"><span class="verdict">${finding.verdict.toUpperCase()}</span> ${finding.why}</p>`;

function readingEntry(
  logged: LoggedReading,
  said: string | undefined,
  findings: readonly Finding[],
  received: string | undefined,
): Markup {
  const { reading, status, condition } = logged;
  const note = STATUS_WORDS[status];
  return html`<div class="entry"><p>${stamp(logged.at, received)} ${logged.by}${said !== undefined && html`: “${said}”`}</p>
<p class="big">${reading.digits} ${reading.unit}</p><p>${QUANTITIES[reading.quantity].label}, ${where(reading.place)}, ${condition.replace("_", " ")}${note !== undefined && html` <b>(${note})</b>`}</p>
${status === "counted" && findings.map(verdictLine)}</div>`;
}

const photoEntry = (logged: LoggedPhoto, photoBase: string, received: string | undefined): Markup =>
  html`<div class="entry"><p>${stamp(logged.photo.taken.at, received)} photo, ${where(logged.place)}${logged.statement !== undefined && html`: ${logged.statement}`}</p>
<a href="${photoBase}/${logged.photo.sha256}/full"><img loading="lazy" alt="photo of ${where(logged.place)}" src="${photoBase}/${logged.photo.sha256}/thumb"></a></div>`;

/**
 * The newest `limit` entries of a build.
 * @param photoBase path below which `SHA256/thumb` and `SHA256/full` are
 */
export function entriesOf(opened: OpenedBuild, photoBase: string, limit: number): Markup[] {
  const { build } = opened;
  const findings = findingsByEvent(opened.findings());
  const entries: Entry[] = [];
  const used = new Set<string>();
  for (const logged of build.readings.values()) {
    const said = logged.utterance === undefined ? undefined : build.utterances.get(logged.utterance)?.text;
    if (logged.utterance !== undefined) used.add(logged.utterance);
    entries.push({
      at: logged.at,
      order: logged.order,
      body: readingEntry(logged, said, findings.get(logged.id) ?? [], opened.receivedAt(logged.id)),
    });
  }
  for (const photo of build.photos.values())
    entries.push({ at: photo.at, order: photo.order, body: photoEntry(photo, photoBase, opened.receivedAt(photo.id)) });
  for (const utterance of build.utterances.values())
    if (!used.has(utterance.id) && utterance.text !== "")
      entries.push({
        at: utterance.at,
        order: 0,
        body: html`<div class="entry"><p>${stamp(utterance.at, opened.receivedAt(utterance.id))} “${utterance.text}”</p></div>`,
      });
  entries.sort((a, b) => (a.at < b.at ? 1 : a.at > b.at ? -1 : b.order - a.order));
  return entries.slice(0, limit).map((entry) => entry.body);
}
