// A plain way to the shop's port that a test can spoil: answers of its own, broken connections, other files.
import { createServer, type IncomingMessage, request, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import type { Shop } from "./harness.ts";

/** Answers a request itself, or gives false to let it through. */
export type Spoil = (incoming: IncomingMessage, response: ServerResponse) => boolean;

export interface Front {
  readonly url: string;
  spoil: Spoil;
  /** Added to the end of the service worker's script: another text is a newer version. */
  workerTail: string;
  close(): Promise<void>;
}

/** Open a front before a shop; the caller closes it. */
export async function openFront(shop: Shop): Promise<Front> {
  const server = createServer((incoming, response) => {
    if (front.spoil(incoming, response)) return;
    const { method, url, headers } = incoming;
    const worker = url === "/sw.js";
    const onward = request(
      { host: "127.0.0.1", port: shop.port, method, path: url, headers: worker ? { host: headers.host } : headers },
      (answer) => {
        const { "content-length": _length, ...rest } = answer.headers;
        response.writeHead(answer.statusCode ?? 502, worker ? rest : answer.headers);
        answer.pipe(response, { end: !worker });
        if (worker) answer.on("end", () => response.end(front.workerTail));
        answer.on("error", () => response.destroy());
      },
    );
    onward.on("error", () => response.destroy());
    response.on("close", () => onward.destroy());
    incoming.pipe(onward);
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const front: Front = {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    spoil: () => false,
    workerTail: "",
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
  return front;
}
