import { form, NAME } from "../lan-helper.ts";
import { type Attack, as, say, words } from "./scene.ts";

export const BY_STRANGERS: readonly Attack[] = [
  // Names and origins
  [
    "a rebound name on the secure door",
    (s) => ({ door: "secure", path: "/api/builds", host: "evil.example", headers: as(s.cookies.owner) }),
    [403, "forbidden_host"],
  ],
  [
    "a rebound name on the plain door",
    (s) => ({ door: "plain", path: "/book", host: "evil.example", headers: as(s.cookies.plain) }),
    [403, "forbidden_host"],
  ],
  [
    "an address that is not this machine's",
    (s) => ({ door: "secure", path: "/api/builds", host: "192.168.7.21", headers: as(s.cookies.owner) }),
    [403, "forbidden_host"],
  ],
  [
    "another site's page posting words",
    (s) => ({
      door: "secure",
      path: say(s),
      ...words,
      headers: { ...words.headers, ...as(s.cookies.bench, { origin: "https://evil.example" }) },
    }),
    [403, "forbidden_origin"],
  ],
  [
    "the plain door's page posting to the secure door",
    (s) => ({
      door: "secure",
      path: say(s),
      ...words,
      headers: { ...words.headers, ...as(s.cookies.bench, { origin: `http://${NAME}:${s.to.plainPort}` }) },
    }),
    [403, "forbidden_origin"],
  ],
  [
    "another site's form making a pairing code",
    (s) => ({
      door: "secure",
      path: "/door/codes",
      ...form({ role: "owner" }),
      headers: { ...form({}).headers, ...as(s.cookies.owner, { origin: "null", "sec-fetch-site": "cross-site" }) },
    }),
    [403, "forbidden_origin"],
  ],
  [
    "another site's form cutting a device off",
    (s) => ({
      door: "secure",
      path: `/door/devices/${s.deviceId}/cut-off`,
      ...form({}),
      headers: { ...form({}).headers, ...as(s.cookies.owner, { origin: "https://evil.example" }) },
    }),
    [403, "forbidden_origin"],
  ],
  [
    "another site's page reading the builds",
    (s) => ({
      door: "secure",
      path: "/api/builds",
      headers: as(s.cookies.viewer, { origin: "https://evil.example", "sec-fetch-mode": "cors", "sec-fetch-site": "cross-site" }),
    }),
    [403, "forbidden_origin"],
  ],
  [
    "a form's own content type at the API",
    (s) => ({
      door: "secure",
      path: say(s),
      ...form({ text: "bore 1 3.8750" }),
      headers: { ...form({}).headers, ...as(s.cookies.bench) },
    }),
    [415, "wrong_type"],
  ],
  // Nobody
  ["nobody reading the builds", () => ({ door: "secure", path: "/api/builds" }), [401, "not_paired"]],
  ["nobody reading the builds by an escaped path", () => ({ door: "secure", path: "/%61pi/builds" }), [401, "not_paired"]],
  ["nobody reading the builds by a doubled slash", () => ({ door: "secure", path: "//api/builds" }), [404, "not_found"]],
  ["nobody reading the builds by other letters", () => ({ door: "secure", path: "/API/builds" }), [404, "not_found"]],
  ["nobody writing", (s) => ({ door: "secure", path: say(s), ...words }), [401, "not_paired"]],
  ["nobody watching live", (s) => ({ door: "secure", path: `/api/builds/${s.to.build}/live` }), [401, "not_paired"]],
  ["nobody fetching the description of the service", () => ({ door: "secure", path: "/api/openapi.json" }), [401, "not_paired"]],
  [
    "nobody sending a blob",
    () => ({
      door: "secure",
      path: `/api/blobs/${"a".repeat(64)}`,
      method: "PUT",
      headers: { "content-type": "application/octet-stream" },
      body: "x",
    }),
    [401, "not_paired"],
  ],
  ["nobody looking at a photo", (s) => ({ door: "secure", path: `/api/photos/${s.otherPhoto}/thumb` }), [401, "not_paired"]],
  ["nobody at the owner's page", () => ({ door: "secure", path: "/door" }), [401, "not_paired"]],
  ["nobody in the book over plain http", () => ({ door: "plain", path: "/book" }), [401, "not_paired"]],
  ["the API over plain http", (s) => ({ door: "plain", path: "/api/builds", headers: as(s.cookies.plain) }), [404, "not_found"]],
  // Passes
  [
    "an invented pass",
    () => ({ door: "secure", path: "/api/builds", headers: as(`__Host-thoubook=${"A".repeat(43)}`) }),
    [401, "not_paired"],
  ],
  [
    "a pass with a quote in it",
    () => ({ door: "secure", path: "/api/builds", headers: as("__Host-thoubook=' OR 1=1 --") }),
    [401, "not_paired"],
  ],
  ["a cut-off device reading", (s) => ({ door: "secure", path: "/api/builds", headers: as(s.cookies.cut) }), [401, "not_paired"]],
  [
    "a cut-off device writing",
    (s) => ({ door: "secure", path: say(s), ...words, headers: { ...words.headers, ...as(s.cookies.cut) } }),
    [401, "not_paired"],
  ],
  [
    "a plain pass at the secure door",
    (s) => ({ door: "secure", path: "/api/builds", headers: as(s.cookies.plain.replace("thoubook_plain", "__Host-thoubook")) }),
    [401, "not_paired"],
  ],
  [
    "a secure pass at the plain door",
    (s) => ({ door: "plain", path: "/book", headers: as(s.cookies.owner.replace("__Host-thoubook", "thoubook_plain")) }),
    [401, "not_paired"],
  ],
  [
    "a pass as a bearer token",
    (s) => ({ door: "secure", path: "/api/builds", headers: { authorization: `Bearer ${s.cookies.owner.split("=")[1]}` } }),
    [401, "not_paired"],
  ],
];
