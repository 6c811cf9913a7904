// A statement said after a photo stands beside it: the next one only, of its step, and not of another part.
import { describe, expect, it } from "vitest";
import type { EventData } from "../../../shared/events/events.ts";
import { statementOf } from "../../../shared/photo/statements.ts";
import type { Place } from "../../../shared/places/places.ts";
import { BenchLog } from "../rules/bench-log.ts";

const say = (text: string, place: Place = {}): EventData["note.made"] => ({
  note: { kind: "statement", text, place },
  step: "teardown",
});

describe("statements beside photos", () => {
  it("belong to the photo before them", () => {
    const log = new BenchLog();
    const one = log.photo("cap_marks", { rod: 1 }, "teardown");
    log.add("note.made", say("marks match, dipper to the front", { end: "front" }));
    const two = log.photo("cap_marks", { rod: 2 }, "teardown");
    log.add("note.made", say("marks match", { fastener: "rod", rod: 2 }));
    const three = log.photo("cap_marks", { rod: 3 }, "teardown");
    log.add("note.made", say("rod four is the odd one", { rod: 4 }));
    log.add("note.made", { note: { kind: "text", text: "a nick on the cheek" }, step: "teardown" });
    const four = log.photo("cap_marks", { rod: 4 }, "teardown", "said with it");
    log.add("note.made", say("said after it"));
    const build = log.fold();
    const words = [one, two, three, four].map((id) => {
      const photo = build.photos.get(id);
      return photo && statementOf(build, photo);
    });
    expect(words).toEqual(["marks match, dipper to the front", "marks match", undefined, "said with it"]);
  });

  it("of another step stay where they are", () => {
    const log = new BenchLog();
    const id = log.photo("dipper", { rod: 1 }, "splash");
    log.add("note.made", say("marks match"));
    const build = log.fold();
    const photo = build.photos.get(id);
    expect(photo && statementOf(build, photo)).toBeUndefined();
  });
});
