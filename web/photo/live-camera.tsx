// The live camera at the vise: opened by a tap or by "photo", counts down aloud, keeps the sharp frame, says what it kept.
import type { Signal } from "@preact/signals";
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { type Build, focusOf } from "../../shared/build/index.ts";
import type { Place } from "../../shared/places/places.ts";
import type { Book } from "../store/book.ts";
import { isoWithOffset } from "../store/clock.ts";
import { type Camera, CameraFault, openCamera } from "./camera.ts";
import { handIn } from "./hand-in.ts";
import { HandInBox } from "./hand-in-box.tsx";
import { lookAt, prepareLook } from "./look.ts";
import { type ShootDoor, shoot } from "./shoot.ts";
import "./photo.css";

export interface Asked {
  /** Counts up with each asking. */
  readonly count: number;
  /** The place said with it. */
  readonly place?: Place | undefined;
}

interface Props {
  readonly book: Book;
  readonly build: Build;
  readonly asked: Signal<Asked>;
  /** Says words aloud; resolves when they have been said. */
  readonly say: (words: string) => Promise<void>;
}

const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

export function LiveCamera({ book, build, asked, say }: Props) {
  const camera = useRef<Camera | undefined>(undefined);
  const view = useRef<HTMLVideoElement>(null);
  const [state, setState] = useState<"closed" | "open" | "busy" | "none">("closed");
  const [words, setWords] = useState("");
  const working = useRef(false);
  const served = useRef(asked.value.count);

  const open = useCallback(async () => {
    if (camera.current !== undefined) return camera.current;
    void prepareLook();
    camera.current = await openCamera();
    setState("open");
    return camera.current;
  }, []);

  const take = useCallback(
    async (said?: Place) => {
      if (working.current) return;
      working.current = true;
      try {
        const opened = await open();
        setState("busy");
        const here = focusOf(build, book.device).place;
        const door: ShootDoor = {
          grab: opened.grab,
          look: ({ wide, measured }) => lookAt(wide, measured),
          say: (text) => {
            setWords(text);
            return say(text);
          },
          pause,
          now: () => isoWithOffset(new Date()),
          keep: async ({ frame, shutter }) => {
            await handIn(book, { bytes: frame.jpeg, type: "image/jpeg", place: said, shutter });
          },
        };
        await shoot(door, { said, here });
        setState("open");
      } catch (error) {
        const text = error instanceof Error ? error.message : String(error);
        setWords(`No picture taken. ${text}.`);
        setState(error instanceof CameraFault ? "none" : "open");
        void say("no picture taken");
      } finally {
        working.current = false;
      }
    },
    [book, build, open, say],
  );

  const close = useCallback(() => {
    camera.current?.close();
    camera.current = undefined;
    setState("closed");
    setWords("");
  }, []);

  const { count, place } = asked.value;
  useEffect(() => {
    if (count === served.current) return;
    served.current = count;
    void take(place);
  }, [count, place, take]);
  useEffect(() => () => camera.current?.close(), []);
  useEffect(() => {
    const { current } = view;
    if (current !== null && camera.current !== undefined) current.srcObject = camera.current.stream;
  }, [state]);

  const shown = state === "open" || state === "busy";
  return (
    <section class="live-camera" aria-label="Camera">
      {shown ? <video ref={view} class="live-view" autoplay muted playsInline aria-label="What the camera sees" /> : null}
      <p class="live-words" role="status" aria-live="polite">
        {words}
      </p>
      <div class="live-row">
        <button type="button" class="big-button" disabled={state === "busy"} onClick={() => void take()}>
          Take a picture
        </button>
        {shown ? (
          <button type="button" class="big-button big-plain" disabled={state === "busy"} onClick={close}>
            Close the camera
          </button>
        ) : null}
      </div>
      {state === "none" ? <HandInBox book={book} build={build} capture /> : null}
    </section>
  );
}
