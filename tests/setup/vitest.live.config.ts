// The listening tests run in real time against a live microphone, and lose a sentence where the machine is busy: they have a
// command of their own (`npm run test:live`), to be run on a quiet machine.
import { defineConfig, mergeConfig } from "vitest/config";
import base from "../../vitest.config.ts";

const live = mergeConfig(base, defineConfig({}));
live.test = { ...live.test, include: ["tests/**/*.live.ts"] };
export default live;
