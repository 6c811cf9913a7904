// The commands as a person runs them: their own process, their exit code, what they print and where.
import type { ChildProcess } from "node:child_process";
import { once } from "node:events";
import { readFile, stat, writeFile } from "node:fs/promises";
import { request } from "node:https";
import { type AddressInfo, createServer } from "node:net";
import { join } from "node:path";
import { describe, expect, it, vi } from "vitest";
import { startCommand } from "../../support/leashed.ts";
import { atEnd, tempDir } from "../helper.ts";

// Each command is a process of its own: slow where the machine is busy.
vi.setConfig({ testTimeout: 120_000 });

interface Run {
  readonly child: ChildProcess;
  out: string;
  err: string;
  readonly done: Promise<number | null>;
}

function start(...args: string[]): Run {
  const child = startCommand(args);
  const run: Run = { child, out: "", err: "", done: new Promise((resolve) => child.on("close", resolve)) };
  child.stdout?.on("data", (chunk) => {
    run.out += chunk;
  });
  child.stderr?.on("data", (chunk) => {
    run.err += chunk;
  });
  atEnd(async () => {
    child.kill("SIGKILL");
    await run.done;
  });
  return run;
}

async function finished(...args: string[]) {
  const run = start(...args);
  return { code: await run.done, out: run.out, err: run.err };
}

/** Start a server and wait for the line with its address. */
async function serve(data: string, ...args: string[]): Promise<Run & { url: string }> {
  const run = start("serve", "--late-ear", "--port", "0", "--data", data, "--log", "info", ...args);
  let url = "";
  await expect
    .poll(
      () => {
        url = /open at (http:\/\/127\.0\.0\.1:\d+)\//.exec(run.err)?.[1] ?? "";
        return url;
      },
      { timeout: 60_000 },
    )
    .not.toBe("");
  return Object.assign(run, { url });
}

const post = async (url: string, body: unknown) =>
  (
    await fetch(url, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) })
  ).json() as Promise<Record<string, never>>;

describe("serve", () => {
  it("says its address on standard error, serves, stops cleanly at SIGTERM, and leaves a shop that verifies", async () => {
    const dir = await tempDir();
    const data = join(dir, "shop");
    const run = await serve(data);
    const { id } = await post(`${run.url}/api/builds`, { name: "Mill engine", demo: true });
    const said = await post(`${run.url}/api/builds/${id}/utterances`, {
      text: "bore number two top thrust three point eight seven five oh",
    });
    expect(said).toMatchObject({
      parsed: { readings: [{ quantity: "bore_diameter", digits: "3.8750", place: { cylinder: 2, depth: "top" } }] },
    });

    const second = await finished("serve", "--late-ear", "--port", "0", "--data", data);
    expect([second.code, second.err]).toEqual([1, expect.stringMatching(/Expected .+ to be free for this process/)]);
    const taken = await finished("serve", "--late-ear", "--port", new URL(run.url).port, "--data", join(dir, "other"));
    expect([taken.code, taken.err]).toEqual([1, expect.stringMatching(/Expected port \d+ to be free/)]);

    const copy = join(dir, "copy");
    expect((await finished("backup", copy, "--data", data)).code).toBe(0);
    run.child.kill("SIGTERM");
    expect(await run.done).toBe(0);
    expect(run.out).toBe("");
    const verified = await finished("verify", "--data", data);
    expect([verified.code, JSON.parse(verified.out)]).toEqual([
      0,
      expect.objectContaining({ ok: true, builds: [expect.objectContaining({ build: id, events: 3 })] }),
    ]);
    const exported = await finished("export", String(id), "--data", data);
    await writeFile(join(dir, "build.json"), exported.out);
    const imported = await finished("import", join(dir, "build.json"), "--data", join(dir, "third"));
    expect([imported.code, JSON.parse(imported.out)]).toEqual([0, expect.objectContaining({ build: id, events: 3, added: 3 })]);
    expect((await finished("restore", copy, "--data", join(dir, "fourth"))).code).toBe(0);
    await writeFile(join(copy, "manifest.json"), "{}");
    expect((await finished("restore", copy, "--data", join(dir, "fifth"))).code).toBe(1);
  });

  it.each([
    [["serve", "--port", "x"], /Expected a port/],
    [["serve", "--database", "postgres://shop:secret@db/shop"], /Expected no --database yet, got postgres:/],
    [["serve", "--lan", "--name", "bad name"], /Expected a name like thoubook.local/],
    [["serve", "--log", "loud"], /Expected one of debug/],
    [["verify", "--data", "/nonexistent"], /Expected a shop's data in \/nonexistent/],
    [["backup"], /missing required argument/],
    [["import", "/nonexistent.json"], /Expected a file to import/],
  ])("%j is refused with exit code 2 and one sentence", async (args, sentence) => {
    const { code, out, err } = await finished(...args);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(sentence);
    expect(err).not.toContain("secret");
  });

  it.each([1, 2])("ends by itself when the port %i after its own is taken, and names that port", async (offset) => {
    const holder = createServer().listen(0, "0.0.0.0");
    atEnd(async () => void holder.close());
    await once(holder, "listening");
    const { port } = holder.address() as AddressInfo;
    const data = join(await tempDir(), "shop");
    const { code, err } = await finished("serve", "--late-ear", "--lan", "--port", String(port - offset), "--data", data);
    expect(code).toBe(1);
    expect(err).toContain(`Expected port ${port} to be free, got one in use`);
  });

  it("with --lan prints addresses, fingerprint and a code that pairs the first device; keeps the authority's key to its owner", async () => {
    const data = join(await tempDir(), "shop");
    const run = await serve(data, "--lan");
    await expect.poll(() => run.err, { timeout: 60_000 }).toMatch(/More codes.+\/door/);
    const port = Number(/In the shop's network: https:\/\/thoubook\.local:(\d+)\//.exec(run.err)?.[1]);
    const code = /with the code ([0-9A-Z]{5}-[0-9A-Z]{5}) at/.exec(run.err)?.[1] ?? "";
    expect(run.err).toMatch(/([0-9A-F]{2} ){31}[0-9A-F]{2}/);
    expect((await stat(join(data, "lan/authority.key.pem"))).mode & 0o777).toBe(0o600);
    const ca = await readFile(join(data, "lan/authority.pem"), "utf8");
    const answer = await new Promise<{ status: number | undefined; cookie: string | undefined }>((resolve, reject) => {
      const body = new URLSearchParams({ code, name: "Phone" }).toString();
      const headers = { host: `thoubook.local:${port}`, "content-type": "application/x-www-form-urlencoded" };
      request(
        { host: "127.0.0.1", port, path: "/pair", method: "POST", ca, servername: "thoubook.local", headers, agent: false },
        (response) => {
          response.resume();
          resolve({ status: response.statusCode, cookie: response.headers["set-cookie"]?.[0] });
        },
      )
        .on("error", reject)
        .end(body);
    });
    expect(answer).toEqual({ status: 303, cookie: expect.stringMatching(/^__Host-thoubook=/) });
    const door = await (await fetch(`${run.url}/door`)).text();
    expect(door).toContain('value="Phone"');
    run.child.kill("SIGINT");
    expect(await run.done).toBe(0);
    expect(
      run.err
        .split("\n")
        .filter((line) => line.startsWith("{"))
        .join(""),
    ).not.toContain(code.replace("-", ""));
  });
});
