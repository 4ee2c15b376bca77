import ssh2, { type AuthContext, type PasswordAuthContext, type PublicKeyAuthContext } from 'ssh2';
import type { EpochMs } from '../../../base/index.ts';
import type { Finding } from '../../../facts/index.ts';
import type { AddressBook } from '../../core/address-book.ts';
import type { AdmittedCamera, DoorKeeper, KeyKeeper } from '../../core/door-keeper.ts';
import { nowMs } from '../../shell/clock.ts';
import type { SftpLimits } from '../core/limits.ts';

export interface LogInSetting {
  readonly limits: SftpLimits;
  readonly keeper: DoorKeeper & KeyKeeper;
  readonly book: AddressBook;
  /** Whether a key may sign with SHA-1. */
  readonly oldCameras: boolean;
}

/** What comes of one attempt. */
export type Verdict =
  | { readonly kind: 'admitted'; readonly camera: AdmittedCamera }
  /** The key would do: the client may prove that it holds it (RFC 4252 section 7). */
  | { readonly kind: 'key-known' }
  | { readonly kind: 'refused' }
  /** Too often: the client is sent away. */
  | { readonly kind: 'sent-off' };

/**
 * The log-in of one connection (RFC 4252): a password or a public key. A wrong password waits, longer each time, and
 * the answer is the same for any user, as at the FTP door. A key that is not known costs only one of a number of
 * offers: there is nothing to guess.
 */
export class LogIn {
  readonly #setting: LogInSetting;
  readonly #address: string;
  readonly #report: (finding: Finding) => void;
  #failures = 0;
  #offers = 0;

  constructor(setting: LogInSetting, address: string, report: (finding: Finding) => void) {
    this.#setting = setting;
    this.#address = address;
    this.#report = report;
  }

  async weigh(attempt: AuthContext): Promise<Verdict> {
    switch (attempt.method) {
      case 'password':
        return this.#weighPassword(attempt);
      case 'publickey':
        return this.#weighKey(attempt);
      default:
        return { kind: 'refused' };
    }
  }

  async #weighPassword({ username: user, password }: PasswordAuthContext): Promise<Verdict> {
    const { book, keeper } = this.#setting;
    const address = this.#address;
    const askedMs = nowMs();
    const { isHeard, failures } = book.attempt(address, askedMs);
    const camera = isHeard ? await keeper.admit({ user, password, address, via: 'sftp' }) : null;
    if (camera !== null && camera !== 'told') {
      book.welcome(address);
      return { kind: 'admitted', camera };
    }
    return this.#wrong(user, failures, askedMs, camera === 'told');
  }

  async #wrong(user: string, failures: number, askedMs: EpochMs, isTold: boolean): Promise<Verdict> {
    const { limits } = this.#setting;
    const address = this.#address;
    this.#failures += 1;
    const often = this.#failures >= limits.loginFailuresMax || failures > limits.loginFailuresPerMinuteMax;
    // One line for one log-in, whatever else comes of it.
    if (!isTold) {
      const code = often ? 'line.too-many-logins' : 'line.wrong-login';
      this.#report({ code, args: { address, user: user.slice(0, 64) } });
    }
    const delayMs = Math.min(limits.loginDelayMaxMs, limits.loginDelayMs * 2 ** Math.max(0, failures - 1));
    // Counted from the question: how long it was looked at must not show in the delay.
    await new Promise((resolve) => setTimeout(resolve, askedMs + delayMs - nowMs()));
    return { kind: often ? 'sent-off' : 'refused' };
  }

  async #weighKey(attempt: PublicKeyAuthContext): Promise<Verdict> {
    this.#offers += 1;
    if (this.#offers > this.#setting.limits.keyOffersMax) {
      const args = { address: this.#address, user: attempt.username.slice(0, 64) };
      this.#report({ code: 'line.too-many-keys', args });
      return { kind: 'sent-off' };
    }
    const key = `${attempt.key.algo} ${attempt.key.data.toString('base64')}`;
    const camera = await this.#setting.keeper.admitKey({
      user: attempt.username,
      key,
      address: this.#address,
    });
    if (camera === null) return { kind: 'refused' };
    if (attempt.signature === undefined) return { kind: 'key-known' };
    return this.#isSigned(attempt, key) ? { kind: 'admitted', camera } : { kind: 'refused' };
  }

  #isSigned({ signature, blob, hashAlgo, key: { algo } }: PublicKeyAuthContext, key: string): boolean {
    if (signature === undefined || blob === undefined) return false;
    if (algo === 'ssh-rsa' && hashAlgo === undefined && !this.#setting.oldCameras) return false;
    const parsed = ssh2.utils.parseKey(key);
    return !(parsed instanceof Error) && parsed.verify(blob, signature, hashAlgo) === true;
  }
}
