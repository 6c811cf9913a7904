// GET /api/keeping: when everything was last checked and backed up, for the screens of who works here.
import { keepingSchema } from "../../shared/api/keeping.ts";
import type { App } from "../http/types.ts";
import type { Keeping } from "../keeping/keeper.ts";

export function keepingRoutes(app: App, keeping: () => Promise<Keeping>): void {
  app.get("/api/keeping", { schema: { response: { 200: keepingSchema } } }, async () => {
    const { check, backups } = await keeping();
    const { last, lastGood, next, failed } = backups;
    return {
      ...(check === undefined ? {} : { check: { at: check.at, faults: check.faults.map((fault) => fault.message) } }),
      backups: {
        // Where they lie is told on the shop's own machine only.
        ...(last === undefined ? {} : { last: { at: last.at, faults: last.faults } }),
        ...(lastGood === undefined ? {} : { lastGood: { at: lastGood.at, faults: lastGood.faults } }),
        ...(next === undefined ? {} : { next }),
        ...(failed === undefined ? {} : { failed: true }),
      },
    };
  });
}
