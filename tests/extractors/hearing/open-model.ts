// The recogniser's module and the acoustic model, opened for tests of what is done with the model's files.
import createModule from "soundswallower";
import { Engine } from "../../../extractors/hearing/engine/engine.ts";
import { Gaussians } from "../../../extractors/hearing/engine/gaussians.ts";
import { readModel } from "../../../extractors/hearing/engine/model.ts";
import type { EngineModule } from "../../../extractors/hearing/engine/module.ts";
import { readModelFile } from "../../../extractors/hearing/node/index.ts";

export async function openModel() {
  const model = await readModel(readModelFile);
  const module = (await (createModule as unknown as (options: object) => Promise<unknown>)({ modelBase: "" })) as EngineModule;
  return { model, gaussians: new Gaussians(model), module, engine: new Engine(module, model) };
}
