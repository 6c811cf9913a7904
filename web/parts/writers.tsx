// What only a device that may write is shown.
import type { ComponentChildren } from "preact";
import { mayWrite } from "../store/caller.ts";

export const LOOKS_ONLY = "The owner lets this device look and not write. Nothing typed or said here would reach the book.";

/** `instead` is for devices that may only look. */
export function Writers({ children, instead }: { children: ComponentChildren; instead?: ComponentChildren }) {
  return <>{mayWrite() ? children : instead}</>;
}
