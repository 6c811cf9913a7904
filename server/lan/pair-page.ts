// The page on which a device gives the code and its name.
import { html, page } from "./html.ts";
import { SEEN_PATH } from "./seen-page.ts";

export interface PairFacts {
  readonly code: string;
  readonly plain: boolean;
  /** What went wrong with the code before. */
  readonly refusal?: string;
  /** Name of the device when it is paired already. */
  readonly pairedAs?: string;
}

export function pairPage({ code, plain, refusal, pairedAs }: PairFacts): string {
  return page(
    "Pair this device",
    html`${pairedAs !== undefined && html`<p>This device is paired as <b>${pairedAs}</b>.</p><p><a class="button" href="${plain ? "/book" : "/"}">Go on</a></p>`}
${refusal !== undefined && html`<p class="note" role="alert">${refusal}</p>`}
${plain && html`<p class="note">Over plain http anyone on this network can read along, and could copy this device's pass. It opens only this plain page and never makes an owner. <a href="/">How to get the secure page</a></p>`}
<form method="post" action="/pair">
<label for="code">Code from the shop machine</label>
<input id="code" name="code" value="${code}" required maxlength="20" autocomplete="off" autocapitalize="characters" spellcheck="false" class="code">
<label for="name">What to call this device</label>
<input id="name" name="name" required maxlength="60" placeholder="Phone at the vise">
<button>Pair this device</button>
</form>
<p>The code is good once, for ten minutes. On the shop machine, the page “Who may come in” makes a new one. <a href="${SEEN_PATH}">What can be seen, and by whom</a></p>`,
  );
}
