// Runs a command in this process and keeps what it prints.

export interface Captured {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export async function captured(work: () => Promise<number>): Promise<Captured> {
  const printed = { out: "", err: "" };
  const streams = [
    ["out", process.stdout],
    ["err", process.stderr],
  ] as const;
  const real = streams.map(([, stream]) => stream.write);
  for (const [name, stream] of streams)
    stream.write = ((chunk: string) => {
      printed[name] += chunk;
      return true;
    }) as typeof stream.write;
  try {
    return { code: await work(), ...printed };
  } finally {
    for (const [index, [, stream]] of streams.entries()) stream.write = real[index] as typeof stream.write;
  }
}
