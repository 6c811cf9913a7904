// The live camera: opened once, frames taken from it as JPEG bytes and as pixels to look at.
import { MEASURE_SIZE, type Rgba } from "../../extractors/photo/browser.ts";

export type CameraFaultCode = "no_camera_here" | "camera_refused" | "camera_failed";

export class CameraFault extends Error {
  readonly code: CameraFaultCode;
  constructor(code: CameraFaultCode, message: string) {
    super(message);
    this.name = "CameraFault";
    this.code = code;
  }
}

export interface Frame {
  readonly jpeg: Uint8Array<ArrayBuffer>;
  /** The same picture no larger than 1280 px, for cards. */
  readonly wide: Rgba;
  /** The same picture at the size focus is measured at. */
  readonly measured: Rgba;
}

export interface Camera {
  readonly stream: MediaStream;
  grab(): Promise<Frame>;
  close(): void;
}

const WANTED: MediaStreamConstraints = {
  audio: false,
  // The camera that looks away from the person, as sharp as it gets; what a device lacks is left out.
  video: { facingMode: { ideal: "environment" }, width: { ideal: 3840 }, height: { ideal: 2160 } },
};
const CARD_SIZE = 1280;
const JPEG_QUALITY = 0.92;

/** Opens the camera. @throws CameraFault */
export async function openCamera(): Promise<Camera> {
  const devices = navigator.mediaDevices as MediaDevices | undefined;
  if (devices === undefined)
    throw new CameraFault("no_camera_here", "Expected a page over https for the live camera, got plain http");
  let stream: MediaStream;
  try {
    stream = await devices.getUserMedia(WANTED);
  } catch (error) {
    const name = error instanceof DOMException ? error.name : "";
    if (name === "NotAllowedError") throw new CameraFault("camera_refused", "Expected leave to use the camera, got a refusal");
    if (name === "NotFoundError") throw new CameraFault("no_camera_here", "Expected a camera on this device, got none");
    throw new CameraFault(
      "camera_failed",
      `Expected the camera to start, got ${error instanceof Error ? error.message : "nothing"}`,
    );
  }
  const video = document.createElement("video");
  video.muted = true;
  video.playsInline = true;
  video.srcObject = stream;
  await video.play();
  return { stream, grab: () => grab(video), close: () => stop(stream) };
}

function stop(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}

/** The picture drawn no larger than `most` on its longer side. */
function drawn(source: CanvasImageSource, width: number, height: number, most: number): Rgba {
  const scale = Math.min(1, most / Math.max(width, height));
  const [w, h] = [Math.round(width * scale), Math.round(height * scale)];
  const context = new OffscreenCanvas(w, h).getContext("2d", { willReadFrequently: true });
  if (context === null) throw new CameraFault("camera_failed", "Expected a canvas, got none");
  context.imageSmoothingQuality = "high";
  context.drawImage(source, 0, 0, w, h);
  return { data: context.getImageData(0, 0, w, h).data, width: w, height: h };
}

async function grab(video: HTMLVideoElement): Promise<Frame> {
  const { videoWidth: width, videoHeight: height } = video;
  if (width === 0) throw new CameraFault("camera_failed", "Expected a picture from the camera, got none");
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext("2d");
  if (context === null) throw new CameraFault("camera_failed", "Expected a canvas, got none");
  context.drawImage(video, 0, 0);
  const blob = await canvas.convertToBlob({ type: "image/jpeg", quality: JPEG_QUALITY });
  return {
    jpeg: new Uint8Array(await blob.arrayBuffer()),
    wide: drawn(canvas, width, height, CARD_SIZE),
    measured: drawn(canvas, width, height, MEASURE_SIZE),
  };
}
