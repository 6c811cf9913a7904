// What can be seen, and by whom: the doors and what lies behind each, in plain words. It tells nothing of this shop in particular,
// so it is shown to everybody.

import { sendPage } from "../http/plain-forms.ts";
import type { App } from "../http/types.ts";
import { html, type Markup, page } from "./html.ts";

export const SEEN_PATH = "/seen";

interface Eyes {
  readonly who: string;
  readonly sees: string;
  readonly not?: string;
}

const ONLOOKERS: readonly Eyes[] = [
  {
    who: "Anybody outside the shop",
    sees: "Nothing. No page loads anything from elsewhere, and nothing is sent there, unless somebody sets the router to pass this machine on to the internet. Do not.",
  },
  {
    who: "Any device on the shop's network that is not paired",
    sees: "That a bench book is here, its name, version and addresses, this page, the page that explains how to come in, and the shop's certificate.",
    not: "Any build, reading, picture or sound, or the name of a device or a customer.",
  },
  {
    who: "Somebody who listens in on the network",
    sees: "Of devices at the secure address: when they talk with this machine, and how much. Of devices at the plain http address, and of customer links that open on any device: everything they send and get, and the pass or link itself, which can then be used by the listener.",
    not: "What goes to and from the secure address.",
  },
  {
    who: "A paired device that looks only",
    sees: "Every build, with its customer's name: readings, verdicts, words, sound, pictures, and which device logged what and when.",
    not: "Who may come in, and where and with what camera a picture was taken: it is shown as a copy without that. It writes nothing.",
  },
  {
    who: "A paired device at the bench",
    sees: "The same. What it writes stands in the book under its own name as the door knows it; the person it says was there stands behind in brackets.",
    not: "What an owner sees. It changes and removes nothing that is in the book: a correction is a new entry. It writes under no other device's name.",
  },
  {
    who: "An owner's device",
    sees: "The same, and the page “Who may come in”.",
    not: "Passes, codes and links that were given out: the shop keeps only their hashes.",
  },
  {
    who: "Whoever holds a customer link, and whoever they pass it on to",
    sees: "One build's record: the names of the build and the customer, what was measured and found, when and by which device, and the pictures.",
    not: "Words, sound, other builds, other customers; and nothing from the moment it is over or revoked; what was saved or printed before stays with them.",
  },
  {
    who: "Whoever has a phone or tablet of the shop in their hands, unlocked",
    sees: "What that device may see, and what it keeps by itself: builds that were opened on it, small pictures, entries that are not sent yet.",
    not: "Anything new once it is cut off. What it keeps by itself stays on it until its browser data are cleared.",
  },
  {
    who: "Whoever sits at the shop's machine, or has an account on it",
    sees: "Everything, as the owner: pages on the machine itself ask for no pass.",
    not: "From another account the files in the data folder: only the account that runs the shop opens them. Entries made on the machine itself may be in anybody's name.",
  },
  {
    who: "Whoever holds the machine's disk, or a backup",
    sees: "Everything, with sounds and pictures as they came, which may name the place and the camera. Nothing of it is encrypted by this program.",
    not: "Passes and links as such. A log that was changed shows it: its last hash is not the one on a printed record or in a backup made before.",
  },
];

const card = ({ who, sees, not }: Eyes): Markup => html`<section class="card"><h2>${who}</h2>
<dl><dt>Sees</dt><dd>${sees}</dd>${not !== undefined && html`<dt>But not</dt><dd>${not}</dd>`}</dl></section>`;

const seenPage = (): string =>
  page(
    "What can be seen, and by whom",
    html`<p>From the farthest to the nearest. Whoever may do more also sees what those above see.</p>
<div class="cards">${ONLOOKERS.map(card)}
<section class="card"><h2>Times</h2><p>Every entry has two: when it happened by the device's own clock, and when the shop received it by the shop's. The second one no device can set, and the log's hashes stand on it.</p></section>
<section class="card"><h2>If a phone is lost</h2><p>On the shop's machine open “Who may come in” and cut it off. Its next request is refused, and what it is sending or watching ends at once.</p></section></div>
<p><a class="button second" href="/">To the start</a></p>`,
  );

export function seenRoute(app: App): void {
  app.get(SEEN_PATH, { schema: { hide: true }, config: { needs: "open" } }, async (_request, reply) =>
    sendPage(reply, seenPage()),
  );
}
