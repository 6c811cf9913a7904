// Pages without script: every value put into one is escaped, so that words and names stay words and names.

/** Text that is markup already. */
export class Markup {
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
  toString(): string {
    return this.text;
  }
}

type Value = string | number | Markup | undefined | false | readonly Value[];

const ESCAPES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };

function render(value: Value): string {
  if (value === undefined || value === false) return "";
  if (value instanceof Markup) return value.text;
  if (typeof value === "object") return value.map(render).join("");
  return String(value).replace(/[&<>"']/g, (character) => ESCAPES[character] ?? "");
}

/** A piece of a page: `html\`<p>${text}</p>\``. */
export function html(parts: TemplateStringsArray, ...values: readonly Value[]): Markup {
  let text = parts[0] ?? "";
  values.forEach((value, index) => {
    text += render(value) + (parts[index + 1] ?? "");
  });
  return new Markup(text);
}

export const STYLE_PATH = "/plain.css";

/** A whole page. */
export function page(title: string, body: Markup): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${title}</title>
<link rel="stylesheet" href="${STYLE_PATH}">
</head>
<body>
<main>
<h1>${title}</h1>
${body}
</main>
</body>
</html>
`.text;
}

/** Large type and large targets: read at arm's length, hit with a knuckle. */
export const STYLE = `
:root { color-scheme: light dark; font: clamp(18px, 14px + 1vw, 22px)/1.45 system-ui, sans-serif; }
body { margin: 0; background: #fff; color: #111; }
main { max-width: 46rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.7rem; line-height: 1.2; } h2 { font-size: 1.35rem; margin-top: 2rem; } h3 { font-size: 1.1rem; }
a { color: #004a9f; } li { margin: .5rem 0; }
code, .mono { font-family: ui-monospace, monospace; overflow-wrap: anywhere; }
.code { font: 700 2.4rem/1.2 ui-monospace, monospace; letter-spacing: .12em; }
label { display: block; margin: .8rem 0 .3rem; }
input, select, textarea { font: inherit; width: 100%; box-sizing: border-box; padding: .6rem; min-height: 3rem; border: 2px solid #555; border-radius: 6px; background: #fff; color: #111; }
button, .button { font: inherit; font-weight: 600; display: inline-flex; align-items: center; box-sizing: border-box; min-height: 3.4rem; padding: .5rem 1.2rem; margin: .6rem .6rem .6rem 0; border: 2px solid #111; border-radius: 8px; background: #111; color: #fff; text-decoration: none; cursor: pointer; }
button.second, .button.second { background: #fff; color: #111; }
table { width: 100%; border-collapse: collapse; } th, td { text-align: left; vertical-align: top; padding: .5rem .4rem; border-bottom: 1px solid #999; }
.cards { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(100%, 19rem), 1fr)); gap: 1rem; margin: 1rem 0; } .card { border: 2px solid #767676; border-radius: 8px; padding: .2rem 1rem .6rem; min-width: 0; } .card form { display: block; margin: 0; } .card h2, .card h3 { margin: .6rem 0 .3rem; font-size: 1.15rem; overflow-wrap: anywhere; } .card p { margin: .4rem 0; }
dt { font-weight: 700; margin-top: .6rem; } dd { margin: 0; } summary { cursor: pointer; padding: .7rem 0; }
.entry { border-left: 6px solid #999; padding: .2rem 0 .2rem .8rem; margin: 1rem 0; }
.pass { border-color: #1a7f37; } .warn { border-color: #b35900; } .fail { border-color: #b00020; } .unknown { border-color: #666; }
.verdict { font-weight: 700; } .small { font-size: .85rem; } .big { font-size: 1.6rem; font-weight: 700; }
.qr { display: flex; flex-wrap: wrap; gap: 1.5rem; } .qr figure { margin: 0; width: 15rem; } .qr svg { width: 15rem; height: 15rem; background: #fff; }
img { max-width: 100%; height: auto; }
.note { border: 2px solid #b35900; border-radius: 8px; padding: .6rem .9rem; }
@media (prefers-color-scheme: dark) { body { background: #14161a; color: #f2f2f2; } a { color: #9cc9ff; } input, select, textarea { background: #000; color: #fff; } button, .button { background: #f2f2f2; color: #111; border-color: #f2f2f2; } button.second, .button.second { background: #14161a; color: #f2f2f2; } }
@media print { :root { font-size: 11pt; } button, form, .button { display: none; } }
`;
