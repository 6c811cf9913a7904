// One build's record for its customer: what was measured and found, with the log's head, and nothing else of the shop.
import { placeLabel } from "../../shared/places/places.ts";
import { QUANTITIES } from "../../shared/quantities/registry.ts";
import type { OpenedBuild } from "../builds/builds.ts";
import { receivedBeside, verdictLine } from "./entries.ts";
import { html, page } from "./html.ts";

export function recordPage(opened: OpenedBuild, photoBase: string, until: string): string {
  const { build, head } = opened;
  const counted = [...build.readings.values()].filter((logged) => logged.status === "counted");
  return page(
    build.name,
    html`<p>${build.customer !== undefined && html`For ${build.customer}. `}${build.spec.name}. Opened ${build.opened.slice(0, 10)}${build.handedOver !== undefined && html`, handed over ${build.handedOver.at.slice(0, 10)} by ${build.handedOver.by}`}.</p>
<h2>What was found</h2>
${opened
  .findings()
  .filter((finding) => finding.verdict !== "unknown")
  .map(verdictLine)}
<h2>What was measured</h2>
<table><thead><tr><th>What</th><th>Where</th><th>Value</th><th>When</th></tr></thead><tbody>
${counted.map(({ id, reading, condition, at, by }) => html`<tr><td>${QUANTITIES[reading.quantity].label}<br><span class="small">${condition.replace("_", " ")}</span></td><td>${placeLabel(reading.place) || "engine"}</td><td><b>${reading.digits} ${reading.unit}</b></td><td class="small">${at.slice(0, 10)} ${at.slice(11, 16)}<br>received ${receivedBeside(at, opened.receivedAt(id) ?? at)}<br>${by}</td></tr>`)}
</tbody></table>
<h2>Photos</h2>
${[...build.photos.values()].map(({ photo, place, statement }) => html`<figure><a href="${photoBase}/${photo.sha256}/full"><img loading="lazy" alt="photo of ${placeLabel(place) || "the engine"}" src="${photoBase}/${photo.sha256}/thumb"></a><figcaption>${placeLabel(place)} ${statement}</figcaption></figure>`)}
<p class="small">Limits are those of the shop's spec sheet; the maker's manual comes first. This log has ${head.seq} entries; the hash of the last one is <span class="mono">${head.hash}</span>. The link is good until ${until.slice(0, 10)}.</p>`,
  );
}
