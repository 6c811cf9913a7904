// The book over plain http: the builds, and one build's timeline with typed entry and photo upload.
import type { BuildRow } from "../../shared/api/builds.ts";
import type { OpenedBuild } from "../builds/builds.ts";
import { entriesOf } from "./entries.ts";
import { html, page } from "./html.ts";

const NEWEST = 100;

export function bookPage(builds: readonly BuildRow[]): string {
  return page(
    "Builds",
    html`${builds.length === 0 && html`<p>No build is open yet. Open one on the shop machine.</p>`}
<ul>${builds.map((build) => html`<li><a class="big" href="/book/${build.id}">${build.name}</a><br>${build.engine}, ${build.counts.readings} readings, ${build.counts.photos} photos</li>`)}</ul>
<p><a href="/">What this page lacks, and how to get the rest</a></p>`,
  );
}

/** @param answer what came of the words just typed, or what was wrong with them */
export function buildPage(opened: OpenedBuild, mayWrite: boolean, answer?: string): string {
  const { build } = opened;
  return page(
    build.name,
    html`${answer !== undefined && html`<p class="note" role="status">${answer}</p>`}
${
  mayWrite &&
  html`<form method="post" action="/book/${build.id}/say"><label for="text">Type it as you would say it</label><input id="text" name="text" required maxlength="2000" placeholder="bore number two top thrust 3.8750" autocomplete="off"><button>Enter</button></form>
<form method="post" action="/book/${build.id}/photos" enctype="multipart/form-data"><label for="photo">Photo</label><input id="photo" name="photo" type="file" accept="image/*" capture="environment" required><label for="statement">What it shows</label><input id="statement" name="statement" maxlength="500"><button>Send the photo</button></form>`
}
<h2>Timeline</h2>
${entriesOf(opened, "/photos", NEWEST)}
<p><a href="/book">All builds</a> · <a href="/">What this page lacks</a></p>`,
  );
}
