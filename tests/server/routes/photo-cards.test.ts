// Tag cards through the service: a card in the frame files its photo, one that disagrees is asked about, sheets are printed.
import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { photosAnswerSchema } from "../../../shared/api/entries.ts";
import { bootShop, multipart, openDemoBuild } from "../helper.ts";

const ROD_3 = new URL("../../../demo-data/photos/cap-marks-3.jpg", import.meta.url);
const HATCH = new URL("../../../demo-data/photos/bore-hatch-1.jpg", import.meta.url);

async function upload(photo: URL, fields: Record<string, string> = {}) {
  const { app } = await bootShop();
  const build = await openDemoBuild(app);
  const parts = Object.entries(fields).map(([name, value]) => ({ name, value }));
  const form = multipart([{ name: "photo", filename: "p.jpg", type: "image/jpeg", value: await readFile(photo) }, ...parts]);
  const answer = await app.inject({ method: "POST", url: `/api/builds/${build}/photos`, ...form });
  return { app, build, events: photosAnswerSchema.parse(answer.json()).events.map(({ event }) => event) };
}

describe("photos with a tag card in the frame", () => {
  it("are filed by it", async () => {
    const { events } = await upload(ROD_3);
    expect(events.map(({ type }) => type)).toEqual(["photo.taken"]);
    expect(events[0]?.data).toMatchObject({ place: { rod: 3 }, step: "teardown", proof: "cap_marks" });
  });

  it("are asked about where another place was said, and kept all the same", async () => {
    const { events } = await upload(ROD_3, { place: '{"rod":1}' });
    expect(events.map(({ type }) => type)).toEqual(["photo.taken", "question.asked"]);
    expect(events[0]?.data).toMatchObject({ place: { rod: 1 } });
    expect(events[1]?.data).toMatchObject({ question: { code: "card_disagrees", options: ["rod 3", "rod 1"] } });
  });

  it("without a card are filed as said", async () => {
    const { events } = await upload(HATCH, { place: '{"cylinder":1}', proof: "bore_hatch" });
    expect(events[0]?.data).toMatchObject({ place: { cylinder: 1 }, step: "finish_bores", proof: "bore_hatch" });
  });
});

describe("the sheet of tag cards", () => {
  it("is a PDF for the build's engine", async () => {
    const { app, build } = await upload(HATCH);
    const answer = await app.inject({ url: `/api/builds/${build}/cards?paper=letter` });
    expect(answer.statusCode).toBe(200);
    expect(answer.headers["content-type"]).toBe("application/pdf");
    expect(answer.rawPayload.subarray(0, 5).toString()).toBe("%PDF-");
    expect((await app.inject({ url: `/api/builds/${build}/cards?paper=a0` })).json()).toMatchObject({ code: "invalid_request" });
    const nobody = "01890000-0000-7000-8000-000000000000";
    expect((await app.inject({ url: `/api/builds/${nobody}/cards` })).json()).toMatchObject({ code: "unknown_build" });
  });
});
