// Attacks by those who are somebody: viewers that write, links that look around, uploads that are something else, crooked paths.
import { clipForm, makeWav, multipart, textEvent } from "../../helper.ts";
import { form, json } from "../lan-helper.ts";
import { type Attack, as, say, svg, words } from "./scene.ts";

export const BY_INSIDERS: readonly Attack[] = [
  // Roles
  [
    "a viewer writing words",
    (s) => ({ door: "secure", path: say(s), ...words, headers: { ...words.headers, ...as(s.cookies.viewer) } }),
    [403, "forbidden_role"],
  ],
  [
    "a viewer sending events",
    (s) => {
      const body = json({ events: [textEvent(s.to.build, "a")] });
      return {
        door: "secure",
        path: `/api/builds/${s.to.build}/events`,
        ...body,
        headers: { ...body.headers, ...as(s.cookies.viewer) },
      };
    },
    [403, "forbidden_role"],
  ],
  [
    "a viewer sending a clip",
    (s) => {
      const { payload, headers } = clipForm(makeWav());
      return {
        door: "secure",
        path: `/api/builds/${s.to.build}/clips`,
        method: "POST",
        body: payload,
        headers: { ...headers, ...as(s.cookies.viewer) },
      };
    },
    [403, "forbidden_role"],
  ],
  [
    "a viewer opening a build",
    (s) => {
      const body = json({ name: "x", demo: true });
      return { door: "secure", path: "/api/builds", ...body, headers: { ...body.headers, ...as(s.cookies.viewer) } };
    },
    [403, "forbidden_role"],
  ],
  [
    "a viewer at the owner's page",
    (s) => ({ door: "secure", path: "/door", headers: as(s.cookies.viewer) }),
    [403, "forbidden_role"],
  ],
  [
    "the bench making an owner's code",
    (s) => ({
      door: "secure",
      path: "/door/codes",
      ...form({ role: "owner" }),
      headers: { ...form({}).headers, ...as(s.cookies.bench) },
    }),
    [403, "forbidden_role"],
  ],
  [
    "the bench cutting the owner off",
    (s) => ({
      door: "secure",
      path: `/door/devices/${s.deviceId}/cut-off`,
      ...form({}),
      headers: { ...form({}).headers, ...as(s.cookies.bench) },
    }),
    [403, "forbidden_role"],
  ],
  [
    "the bench making a customer link",
    (s) => ({
      door: "secure",
      path: "/door/links",
      ...form({ build: s.to.build, days: "7" }),
      headers: { ...form({}).headers, ...as(s.cookies.bench) },
    }),
    [403, "forbidden_role"],
  ],
  // Pairing
  ["a used pairing code", (s) => ({ door: "secure", path: "/pair", ...form({ code: s.usedCode, name: "x" }) }), [401, undefined]],
  [
    "an empty pairing code",
    () => ({ door: "secure", path: "/pair", ...form({ code: "", name: "x" }) }),
    [400, "invalid_request"],
  ],
  [
    "a pairing form of a megabyte",
    () => ({ door: "secure", path: "/pair", ...form({ code: "x".repeat(1_000_000), name: "x" }) }),
    [413, "too_large"],
  ],
  // Customer links
  [
    "a customer link asking for another build by the API",
    (s) => ({ door: "secure", path: `/api/builds/${s.other}`, headers: as(`__Host-thoubook=${s.link}`) }),
    [401, "not_paired"],
  ],
  [
    "a customer link asking for its own build by the API",
    (s) => ({ door: "secure", path: `/api/builds/${s.to.build}/export`, headers: { authorization: `Bearer ${s.link}` } }),
    [401, "not_paired"],
  ],
  [
    "a customer link asking for another build's photo",
    (s) => ({ door: "secure", path: `/record/${s.link}/photos/${s.otherPhoto}/thumb` }),
    [404, "unknown_blob"],
  ],
  [
    "a customer link with another build behind it",
    (s) => ({ door: "secure", path: `/record/${s.link}/${s.other}` }),
    [404, "not_found"],
  ],
  ["a customer link climbing out", (s) => ({ door: "secure", path: `/record/${s.link}/../../api/builds` }), [404, "not_found"]],
  ["a customer link that writes", (s) => ({ door: "secure", path: `/record/${s.link}`, ...words }), [401, "not_paired"]],
  ["a revoked customer link", (s) => ({ door: "secure", path: `/record/${s.deadLink}` }), [404, "unknown_link"]],
  ["a customer link that is over", (s) => ({ door: "secure", path: `/record/${s.oldLink}` }), [404, "unknown_link"]],
  ["an invented customer link", () => ({ door: "secure", path: `/record/${"A".repeat(43)}` }), [404, "unknown_link"]],
  ["a secure customer link at the plain door", (s) => ({ door: "plain", path: `/record/${s.link}` }), [404, "unknown_link"]],
  // Files and paths
  ["a path out of the screens' folder", () => ({ door: "secure", path: "/../../../../etc/passwd" }), [404, "not_found"]],
  ["a path out, escaped", () => ({ door: "secure", path: "/%2e%2e/%2e%2e/etc/passwd" }), [404, "not_found"]],
  [
    "a path out of the model's folder, escaped slashes",
    () => ({ door: "secure", path: "/model/..%2f..%2f..%2fetc/passwd" }),
    [404, "not_found"],
  ],
  [
    "the database as a blob",
    (s) => ({ door: "secure", path: "/api/blobs/..%2fthoubook.db", headers: as(s.cookies.owner) }),
    [404, "unknown_blob"],
  ],
  ["the authority's key", () => ({ door: "plain", path: "/authority.key.pem" }), [404, "not_found"]],
  [
    "a photo's original, which may say where it was taken",
    (s) => ({ door: "secure", path: `/api/blobs/${s.otherPhoto}`, headers: as(s.cookies.owner) }),
    [404, "unknown_blob"],
  ],
  [
    "an SVG with script as a photo",
    (s) => {
      const body = multipart([{ name: "photo", filename: "a.jpg", type: "image/jpeg", value: svg }]);
      return {
        door: "secure",
        path: `/api/builds/${s.to.build}/photos`,
        method: "POST",
        body: body.payload,
        headers: { ...body.headers, ...as(s.cookies.bench) },
      };
    },
    [415, "wrong_type"],
  ],
  [
    "an SVG with script as a photo over plain http",
    (s) => {
      const body = multipart([{ name: "photo", filename: "a.svg", type: "image/svg+xml", value: svg }]);
      return {
        door: "plain",
        path: `/book/${s.to.build}/photos`,
        method: "POST",
        body: body.payload,
        headers: { ...body.headers, ...as(s.cookies.plain) },
      };
    },
    [415, "wrong_type"],
  ],
  [
    "a web page as a clip",
    (s) => {
      const body = clipForm(Buffer.from("<!doctype html><script>alert(1)</script>"));
      return {
        door: "secure",
        path: `/api/builds/${s.to.build}/clips`,
        method: "POST",
        body: body.payload,
        headers: { ...body.headers, ...as(s.cookies.bench) },
      };
    },
    [415, "clip_not_wav"],
  ],
  [
    "a method to trace with",
    (s) => ({ door: "secure", path: "/api/builds", method: "OPTIONS", headers: as(s.cookies.owner) }),
    [404, "not_found"],
  ],
];
