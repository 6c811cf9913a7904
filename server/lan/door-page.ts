// The owner's page at the door: who may come in, codes for new devices, links for customers, and how long certificates hold.
import type { BuildRow } from "../../shared/api/builds.ts";
import { ROLES } from "../access/access.ts";
import type { CustomerLink, Device } from "./door-list.ts";
import { html, type Markup, page } from "./html.ts";
import type { Certificates } from "./owner-routes.ts";
import { SEEN_PATH } from "./seen-page.ts";

export const ROLE_WORDS = {
  viewer: "looks only",
  bench: "looks and writes",
  owner: "also lets devices in and out",
} as const;

/** What a customer link asks of the device that opens it: in a word, and in a sentence. */
export const LINK_DOORS = {
  plain: ["any device", "It opens on any device on the shop's network, over plain http: others on the network could read along."],
  secure: ["trusting devices", "It opens only on devices that trust the shop's certificate; nobody can read along."],
} as const;

export interface LanFacts {
  readonly fingerprint: string;
  readonly certificates: Certificates;
}

export interface DoorFacts {
  readonly devices: readonly Device[];
  readonly links: readonly CustomerLink[];
  readonly builds: readonly BuildRow[];
  /** Absent when the shop is open on this machine alone. */
  readonly lan: LanFacts | undefined;
  /** How old the last good backup is, in a sentence; absent where nobody looks after that. */
  readonly backups?: string | undefined;
  readonly now: number;
  /** Id of the device that looks at the page. */
  readonly own: string;
}

export const when = (iso: string | undefined) => (iso === undefined ? "not yet" : `${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`);
const day = (iso: string) => iso.slice(0, 10);
const DAY_MS = 86_400_000;
const SOON_DAYS = 365;

const options = (words: Readonly<Record<string, string>>, order: readonly string[]) =>
  order.map((value) => html`<option value="${value}">${value}: ${words[value]}</option>`);

const letIn = html`<form method="post" action="/door/codes"><label for="role">It may</label>
<select id="role" name="role">${options(ROLE_WORDS, ["bench", ...ROLES.filter((role) => role !== "bench")])}</select>
<button>Make a code</button></form>`;

const deviceCard = (device: Device, own: string): Markup => html`<section class="card" aria-label="${device.name}">
<h3>${device.name}${device.id === own && html` <span class="small">(this device)</span>`}</h3>
<p><b>${device.role}</b>, ${ROLE_WORDS[device.role]}${device.door === "plain" && html`. <b>Over plain http</b>: others on the network could read along`}</p>
<p class="small">Paired ${when(device.pairedAt)}. Seen ${when(device.lastSeenAt)}.</p>
<form method="post" action="/door/devices/${device.id}/cut-off"><button>Cut off</button></form>
<details><summary>Rename</summary><form method="post" action="/door/devices/${device.id}/name"><label for="n-${device.id}">Name, as the book is to show it from now on</label><input id="n-${device.id}" name="name" value="${device.name}" required maxlength="60"><button class="second">Rename</button></form></details>
</section>`;

function linkCard(link: CustomerLink, builds: readonly BuildRow[]): Markup {
  const name = builds.find((row) => row.id === link.build)?.name ?? link.build;
  return html`<section class="card" aria-label="link to ${name}">
<h3>${name}</h3>
<p>${LINK_DOORS[link.door][1]}</p>
<p class="small">Made ${when(link.madeAt)}. Over on ${when(link.expiresAt)}.</p>
<form method="post" action="/door/links/${link.id}/revoke"><button>Revoke</button></form></section>`;
}

const newLink = (builds: readonly BuildRow[]): Markup => html`<form method="post" action="/door/links">
<label for="build">Build</label><select id="build" name="build">${builds.map((build) => html`<option value="${build.id}">${build.name}</option>`)}</select>
<label for="door">It opens on</label><select id="door" name="door">${Object.entries(LINK_DOORS).map(([door, [word]]) => html`<option value="${door}">${word}</option>`)}</select>
<p class="small">${Object.values(LINK_DOORS).map(([word, sentence]) => html`<b>${word}</b>: ${sentence} `)}</p>
<label for="days">Good for days</label><input id="days" name="days" type="number" min="1" max="365" value="30" required>
<button>Make a link</button></form>`;

function certificateFacts({ fingerprint, certificates: { authority, server } }: LanFacts, now: number): Markup {
  const left = Math.floor((Date.parse(authority.until) - now) / DAY_MS);
  return html`<h2>Certificates</h2>
${left < SOON_DAYS && html`<p class="note" role="alert">The authority ends in ${left} days, on ${day(authority.until)}. Before that, start once with <code>thoubook serve --lan --new-authority</code> and have every device trust the new one.</p>`}
<dl>
<dt>The shop's authority</dt><dd>made ${day(authority.from)}, holds until <b>${day(authority.until)}</b>. It is never made anew by itself: devices trust this one. Keep its folder in your backups.</dd>
<dt>This machine's certificate</dt><dd>made ${day(server.from)}, holds until <b>${day(server.until)}</b>. It is made anew by itself from ${day(server.renews)} on, and at once when the machine's addresses change; devices do not notice.</dd>
<dt>It is for</dt><dd class="mono">${server.names.join(", ")}</dd>
<dt>The authority's SHA-256 fingerprint, to compare on a device</dt><dd class="mono">${fingerprint}</dd>
</dl>`;
}

export function doorPage({ devices, links, builds, lan, now, own, backups }: DoorFacts): string {
  return page(
    "Who may come in",
    html`<p><a href="${SEEN_PATH}">What can be seen, and by whom</a></p>
<h2>Let a device in</h2>
${lan !== undefined ? letIn : html`<p>The shop is open on this machine alone. To let a phone in, or to show a customer a record, stop it and start it with <code>thoubook serve --lan</code>.</p>`}
<h2>Devices</h2>
${devices.length === 0 ? html`<p>None is paired.</p>` : html`<div class="cards">${devices.map((device) => deviceCard(device, own))}</div>`}
<h2>Customer links</h2>
<p>A link shows one build's record, read only, to whoever holds it, on the shop's network, until it is over or revoked.</p>
<div class="cards">${links.map((link) => linkCard(link, builds))}</div>
${lan !== undefined && builds.length > 0 && newLink(builds)}
${lan !== undefined && certificateFacts(lan, now)}
${backups !== undefined && html`<h2>Backups</h2><p>${backups}</p>`}
<p><a class="button second" href="/">To the book</a></p>`,
  );
}
