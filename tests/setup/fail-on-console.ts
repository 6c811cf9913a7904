// A console call in code under test is a fault: logging goes through pino, results through return values.
import { afterEach, beforeEach, vi } from "vitest";

const METHODS = ["log", "info", "warn", "error", "debug"] as const;

beforeEach(() => {
  for (const method of METHODS) {
    vi.spyOn(console, method).mockImplementation((...args: unknown[]) => {
      throw new Error(`Expected no console.${method} call, got: ${args.map(String).join(" ")}`);
    });
  }
});

afterEach(() => {
  vi.restoreAllMocks();
});
