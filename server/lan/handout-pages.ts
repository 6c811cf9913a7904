// What the owner's page hands out once: a pairing code, a customer's link, each with its picture for a camera.

import type { Role } from "../access/access.ts";
import type { Door } from "./door-list.ts";
import { LINK_DOORS, ROLE_WORDS, when } from "./door-page.ts";
import { html, Markup, page } from "./html.ts";
import { CODE_MINUTES } from "./pairing.ts";

export interface CodeFacts {
  readonly code: string;
  readonly role: Role;
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
    html`<p>It will be: <b>${facts.role}</b>, ${ROLE_WORDS[facts.role]}. The code is good once, for ${CODE_MINUTES} minutes.</p>
<p class="code">${facts.code.slice(0, 5)}-${facts.code.slice(5)}</p>
<div class="qr">
<figure>${new Markup(facts.explainQr)}<figcaption>1. A new device first: get the certificate at <a href="${facts.explainUrl}">${facts.explainUrl}</a></figcaption></figure>
<figure>${new Markup(facts.pairQr)}<figcaption>2. Then pair at <span class="mono">${facts.pairUrl.split("?")[0]}</span></figcaption></figure>
</div>
${facts.byAddress !== undefined && html`<p>A device that cannot find the name uses <span class="mono">${facts.byAddress}</span> and types the code.</p>`}
<p><a class="button" href="/door">Done</a></p>`,
  );
}

export interface LinkFacts {
  /** Addresses that all open it, the surest first. */
  readonly links: readonly string[];
  readonly door: Door;
  readonly until: string;
  /** Picture of the first one. */
  readonly qr: string;
}

export function linkPage({ links: [first, ...others], door, until, qr }: LinkFacts): string {
  return page(
    "Customer link",
    html`<p>Shown once, good until ${when(until)} or until you revoke it. ${LINK_DOORS[door][1]}</p>
<div class="qr"><figure>${new Markup(qr)}<figcaption class="mono">${first}</figcaption></figure></div>
${others.length > 0 && html`<p>The same by name:</p>${others.map((url) => html`<p class="mono">${url}</p>`)}`}
<p><a class="button" href="/door">Done</a></p>`,
  );
}
