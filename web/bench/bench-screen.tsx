// placeholder
import type { BuildPageProps } from "../app.tsx";
export function BenchScreen({ build }: BuildPageProps) {
  return <p>{build.name}</p>;
}
