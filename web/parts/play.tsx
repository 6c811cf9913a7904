// Plays the sound of an utterance: from the shop, or from this device while it has not been carried there.
import { useState } from "preact/hooks";
import { bench } from "../store/bench.ts";
import { clipUrl } from "../store/shop.ts";

async function soundUrl(sha256: string): Promise<string> {
  const bytes = await bench.value?.device.keep.blob(sha256);
  return bytes === undefined ? clipUrl(sha256) : URL.createObjectURL(new Blob([bytes], { type: "audio/wav" }));
}

export function PlayClip({ sha256 }: { sha256: string }) {
  const [state, setState] = useState<"still" | "playing" | "failed">("still");
  const play = async () => {
    const url = await soundUrl(sha256);
    const audio = new Audio(url);
    const end = (next: "still" | "failed") => () => {
      setState(next);
      if (url.startsWith("blob:")) URL.revokeObjectURL(url);
    };
    audio.onended = end("still");
    audio.onerror = end("failed");
    setState("playing");
    await audio.play().catch(end("failed"));
  };
  const words = { still: "Hear it", playing: "Playing", failed: "No sound here" }[state];
  return (
    <button type="button" class="small-button" onClick={() => void play()}>
      <svg class="shape" viewBox="0 0 24 24" aria-hidden="true">
        <path d="M5 3v18l15-9z" />
      </svg>
      {words}
    </button>
  );
}
