import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';

/** How many ports after the preferred one are tried before any free one is taken. */
const neighbours = 10;

const listenOn = (server: Server, port: number): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, '127.0.0.1', () => {
      server.off('error', reject);
      resolve();
    });
  });

/**
 * Starts to listen on the loopback interface and returns the port. It stays the preferred one where that can be had: a browser remembers its
 * permission for the microphone by address and port. Throws where no port can be had at all.
 */
export async function listenOnPort(server: Server, preferred: number): Promise<number> {
  const candidates = [...Array.from({ length: neighbours }, (_, index) => preferred + index), 0];
  for (const port of candidates) {
    try {
      await listenOn(server, port);
      return (server.address() as AddressInfo).port;
    } catch (fault) {
      const taken = fault instanceof Error && 'code' in fault && fault.code === 'EADDRINUSE';
      if (!taken || port === 0) throw fault;
    }
  }
  throw new Error(`no free port from ${preferred} on`);
}
