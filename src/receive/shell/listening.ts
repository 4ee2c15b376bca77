import type { AddressInfo, Server } from 'node:net';
import { errorCode } from '../../base/index.ts';
import { portForbidden, portInUse } from '../errors.ts';

/** The same with our own errors: rejects `port-in-use`, `port-forbidden`, or with the system's error. */
export async function listenOrExplain(server: Server, host: string, port: number): Promise<number> {
  try {
    return await listen(server, host, port);
  } catch (trouble) {
    const code = errorCode(trouble);
    if (code === 'EADDRINUSE') throw portInUse(port, trouble);
    if (code === 'EACCES' || code === 'EPERM') throw portForbidden(port, trouble);
    throw trouble;
  }
}

/** Listens and gives the port, or rejects with the system's error. */
export function listen(server: Server, host: string, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host, port, exclusive: true }, () => {
      server.off('error', reject);
      const address = server.address();
      resolve(isInternet(address) ? address.port : port);
    });
  });
}

function isInternet(address: AddressInfo | string | null): address is AddressInfo {
  return typeof address === 'object' && address !== null;
}
