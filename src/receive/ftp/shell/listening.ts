import type { AddressInfo, Server } from 'node:net';

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
