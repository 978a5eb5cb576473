import { createReadStream, existsSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.json': 'application/json',
  '.wasm': 'application/wasm',
};

export interface ServedFolder {
  /** With a slash at its end. */
  readonly address: string;
  close(): Promise<void>;
}

/** Serves a folder as the plainest server does: files by their names, no headers but their types. */
export async function serveFolder(folder: string): Promise<ServedFolder> {
  const server = createServer((request, response) => {
    const path = join(folder, normalize(decodeURIComponent(new URL(request.url!, 'http://a').pathname)));
    if (!path.startsWith(folder) || !existsSync(path) || !statSync(path).isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.writeHead(200, { 'Content-Type': TYPES[extname(path)] ?? 'application/octet-stream' });
    createReadStream(path).pipe(response);
  });
  await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: () =>
      new Promise((closed) => {
        server.closeAllConnections();
        server.close(() => closed());
      }),
  };
}
