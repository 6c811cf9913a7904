// Reads a trace of system calls (strace -f -xx) line by line into a disk, and tells what went out to whoever was being answered.
import { Disk } from "./disk.ts";

/** The calls a trace must hold. */
export const TRACED =
  "openat,open,creat,close,write,pwrite64,writev,sendto,sendmsg,fsync,fdatasync,ftruncate,rename,renameat,renameat2,unlink,unlinkat,mkdir,mkdirat";

const WHOLE = /^(\d+) +(\w+)\((.*)\) += (-?\d+)/;
const BEGUN = /^(\d+) +(\w+)\((.*) <unfinished \.\.\.>$/;
const ENDED = /^(\d+) +<\.\.\. (\w+) resumed>(.*)\) += (-?\d+)/;

const bytesOf = (hex: string) => Buffer.from(hex.replaceAll("\\x", ""), "hex");
/** Every quoted text of a call's arguments. */
const textsOf = (args: string) => [...args.matchAll(/"((?:\\x[0-9a-f]{2})*)"/g)].map((match) => bytesOf(match[1] ?? ""));
const lastNumber = (args: string) => Number(/(-?\d+)\s*$/.exec(args)?.[1]);

export class TraceReader {
  readonly disk: Disk;
  private readonly begun = new Map<string, { args: string; synced?: () => void }>();

  constructor(root: string) {
    this.disk = new Disk(root);
  }

  /** Take in one line. Gives the text that the line sends to somebody outside of the disk, if it sends any. */
  take(line: string): string | undefined {
    const begun = BEGUN.exec(line);
    if (begun !== null) {
      const [, pid = "", call = "", args = ""] = begun;
      // A sync covers what was written before it began; all else counts from when it has returned.
      this.begun.set(pid, { args, ...(isSync(call) ? { synced: this.disk.sync(Number.parseInt(args, 10)) } : {}) });
      return undefined;
    }
    const ended = ENDED.exec(line);
    const whole = ended === null ? WHOLE.exec(line) : null;
    if (ended !== null) {
      const [, pid = "", call = "", rest = "", result = ""] = ended;
      const before = this.begun.get(pid);
      this.begun.delete(pid);
      if (before?.synced !== undefined) {
        if (Number(result) === 0) before.synced();
        return undefined;
      }
      return this.done(call, `${before?.args ?? ""}${rest}`, Number(result));
    }
    if (whole === null) return undefined;
    const [, , call = "", args = "", result = ""] = whole;
    if (isSync(call)) {
      const synced = this.disk.sync(Number.parseInt(args, 10));
      if (Number(result) === 0) synced();
      return undefined;
    }
    return this.done(call, args, Number(result));
  }

  private done(call: string, args: string, result: number): string | undefined {
    if (result < 0) return undefined;
    const { disk } = this;
    const fd = Number.parseInt(args, 10);
    const paths = () => textsOf(args).map(String);
    const [path = "", to = ""] = call.startsWith("write") || call.startsWith("send") || call === "pwrite64" ? [] : paths();
    switch (call) {
      case "openat":
      case "open":
      case "creat":
        disk.open(result, path, args);
        return undefined;
      case "close":
        disk.close(fd);
        return undefined;
      case "pwrite64":
        disk.write(fd, Buffer.concat(textsOf(args)).subarray(0, result), lastNumber(args));
        return undefined;
      case "write":
      case "writev":
      case "sendto":
      case "sendmsg": {
        const bytes = Buffer.concat(textsOf(args)).subarray(0, result);
        return disk.write(fd, bytes) ? undefined : bytes.toString("latin1");
      }
      case "ftruncate":
        disk.truncate(fd, lastNumber(args));
        return undefined;
      case "mkdir":
      case "mkdirat":
        disk.makeFolder(path);
        return undefined;
      case "rename":
      case "renameat":
      case "renameat2":
        disk.rename(path, to);
        return undefined;
      default:
        disk.unlink(path);
        return undefined;
    }
  }
}

const isSync = (call: string) => call === "fsync" || call === "fdatasync";
