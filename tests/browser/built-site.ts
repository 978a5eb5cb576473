import { readFileSync } from 'node:fs';
import { createServer, type IncomingHttpHeaders } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const DIST = fileURLToPath(new URL('../../dist/', import.meta.url));

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json',
};

/** What came over the network for one file. */
export interface ReceivedRequest {
  readonly method: string;
  /** With its query, if there is one. */
  readonly address: string;
  readonly headers: IncomingHttpHeaders;
  readonly bodyBytes: number;
}

/** A server of built files, one folder at a time, that can be put in another's place or taken off the network. */
export interface BuiltSite {
  readonly address: string;
  /** From now on these files are served. */
  serve(folder: string): void;
  close(): Promise<void>;
}

/**
 * @param headers sent with every file.
 * @param note told of every request, once all of it is there.
 */
export async function builtSite(
  folder: string,
  headers: Readonly<Record<string, string>>,
  note: (request: ReceivedRequest) => void = () => {},
): Promise<BuiltSite> {
  let served = folder;
  const server = createServer((request, response) => {
    let bodyBytes = 0;
    request.on('data', (bytes: Uint8Array) => {
      bodyBytes += bytes.length;
    });
    request.on('end', () =>
      note({ method: request.method!, address: request.url!, headers: request.headers, bodyBytes }),
    );
    const path = decodeURIComponent(new URL(request.url!, 'http://site').pathname);
    const name = path.endsWith('/') ? `${path}index.html` : path;
    try {
      const bytes = readFileSync(join(served, name));
      const type = TYPES[extname(name)] ?? 'text/plain; charset=utf-8';
      response.writeHead(200, { ...headers, 'Content-Type': type }).end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    serve: (another) => {
      served = another;
    },
    close: () =>
      new Promise((closed) => {
        server.closeAllConnections();
        server.close(() => closed());
      }),
  };
}
