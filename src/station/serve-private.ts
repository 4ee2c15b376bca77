import { errorCode } from '../base/index.ts';
import { bindError } from './bind-address.ts';
import { isPrivateAddress } from './core/addresses.ts';

/** Where a camera's door listens, and whom it serves there. */
export interface ServedPlace {
  readonly host: string;
  readonly mayServe?: (localAddress: string) => boolean;
}

/**
 * Opens a door everywhere, to serve on private addresses only (`docs/decisions/0005-listen-everywhere-serve-private.md`);
 * an address that was named is served whatever it is.
 */
export async function openServed<Door>(
  bind: string | null,
  open: (place: ServedPlace) => Promise<Door>,
): Promise<Door> {
  if (bind !== null) {
    return open({ host: bind }).catch((thrown: unknown) => {
      throw bindError(thrown, bind);
    });
  }
  try {
    return await open({ host: '::', mayServe: isPrivateAddress });
  } catch (thrown) {
    // A system without IPv6 knows no "::".
    if (!['EAFNOSUPPORT', 'EADDRNOTAVAIL', 'EINVAL'].includes(errorCode(thrown))) throw thrown;
    return open({ host: '0.0.0.0', mayServe: isPrivateAddress });
  }
}
