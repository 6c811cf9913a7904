// The owner's page: devices and customer links, each with its cut-off, and new pairing codes.
import type { BuildRow } from "../../shared/api/builds.ts";
import { ROLES } from "../access/access.ts";
import type { CustomerLink, Device } from "./door-list.ts";
import { html, Markup, page } from "./html.ts";

const ROLE_WORDS = {
  viewer: "looks only",
  bench: "looks and writes",
  owner: "also lets devices in and out",
} as const;

export interface DoorFacts {
  readonly devices: readonly Device[];
  readonly links: readonly CustomerLink[];
  readonly builds: readonly BuildRow[];
  readonly fingerprint: string | undefined;
}

const when = (iso: string | undefined) => (iso === undefined ? "never" : `${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`);

function deviceRow(device: Device): Markup {
  return html`<tr>
<td><form method="post" action="/door/devices/${device.id}/name"><label for="n-${device.id}">Name</label><input id="n-${device.id}" name="name" value="${device.name}" required maxlength="60"><button class="second">Rename</button></form></td>
<td>${device.role}: ${ROLE_WORDS[device.role]}${device.door === "plain" && html`<br><b>plain http</b>`}<br><span class="small">paired ${when(device.pairedAt)}<br>last seen ${when(device.lastSeenAt)}</span></td>
<td><form method="post" action="/door/devices/${device.id}/cut-off"><button>Cut off</button></form></td>
</tr>`;
}

function linkRow(link: CustomerLink, builds: readonly BuildRow[]): Markup {
  const build = builds.find((row) => row.id === link.build);
  return html`<tr><td>${build?.name ?? link.build}</td><td class="small">made ${when(link.madeAt)}<br>over on ${when(link.expiresAt)}</td>
<td><form method="post" action="/door/links/${link.id}/revoke"><button>Revoke</button></form></td></tr>`;
}

export function doorPage({ devices, links, builds, fingerprint }: DoorFacts): string {
  const lan = fingerprint !== undefined;
  return page(
    "Who may come in",
    html`<h2>Let a device in</h2>
${
  lan
    ? html`<form method="post" action="/door/codes"><label for="role">It may</label>
<select id="role" name="role">${["bench" as const, ...ROLES.filter((role) => role !== "bench")].map((role) => html`<option value="${role}">${role}: ${ROLE_WORDS[role]}</option>`)}</select>
<button>Make a code</button></form>
<p>The shop's certificate authority, SHA-256:<br><span class="mono">${fingerprint}</span></p>`
    : html`<p>The shop is open on this machine alone. To let a phone in, stop it and start it with <code>thoubook serve --lan</code>.</p>`
}
<h2>Devices</h2>
${devices.length === 0 ? html`<p>None.</p>` : html`<table><tbody>${devices.map(deviceRow)}</tbody></table>`}
<h2>Customer links</h2>
<p>A link shows one build's record, read only, to whoever holds it, until it is over or revoked.</p>
${links.length > 0 && html`<table><tbody>${links.map((link) => linkRow(link, builds))}</tbody></table>`}
${
  builds.length > 0 &&
  html`<form method="post" action="/door/links"><label for="build">Build</label><select id="build" name="build">${builds.map((build) => html`<option value="${build.id}">${build.name}</option>`)}</select>
<label for="days">Good for days</label><input id="days" name="days" type="number" min="1" max="365" value="30" required><button>Make a link</button></form>`
}
<p><a href="/">To the book</a></p>`,
  );
}

export interface CodeFacts {
  readonly code: string;
  readonly role: string;
  readonly pairUrl: string;
  readonly explainUrl: string;
  /** The address by number, for devices that cannot find the name. */
  readonly byAddress: string | undefined;
  readonly pairQr: string;
  readonly explainQr: string;
}

/** A new code with its two pictures. The pictures are made here, so they are markup already. */
export function codePage(facts: CodeFacts): string {
  return page(
    "Pair a device",
    html`<p>It will be: <b>${facts.role}</b>. The code is good once, for ten minutes.</p>
<p class="code">${facts.code.slice(0, 5)}-${facts.code.slice(5)}</p>
<div class="qr">
<figure>${new Markup(facts.explainQr)}<figcaption>1. A new device first: get the certificate at <a href="${facts.explainUrl}">${facts.explainUrl}</a></figcaption></figure>
<figure>${new Markup(facts.pairQr)}<figcaption>2. Then pair at <span class="mono">${facts.pairUrl.split("?")[0]}</span></figcaption></figure>
</div>
${facts.byAddress !== undefined && html`<p>A device that cannot find the name uses <span class="mono">${facts.byAddress}</span> and types the code.</p>`}
<p><a class="button" href="/door">Done</a></p>`,
  );
}

export function linkPage(url: string, until: string): string {
  return page(
    "Customer link",
    html`<p>Shown once. It is good until ${when(until)}, or until you revoke it.</p><p class="mono">${url}</p><p><a class="button" href="/door">Done</a></p>`,
  );
}
