import { createHash } from 'node:crypto';
import { rehearsalPictureName } from '../../facts/index.ts';
import { otherHostKey } from '../core/rehearsal-cause.ts';
import { SftpCamera } from '../sftp-camera.ts';
import type { RehearsalOptions, Seen, Walker } from './shapes.ts';
import { testPicture } from './test-picture.ts';

/** SFTP needs one connection for all: once it has logged in there is no second that could be shut. */
export function sftpWalker(options: RehearsalOptions, stepMs: number): Walker {
  const { hostKeys } = options;
  let shown = '';
  const camera = new SftpCamera(
    {
      ...options,
      silenceMs: stepMs,
      paceBytesPerSecond: Number.POSITIVE_INFINITY,
      ...{ retries: 0, resendAfterMs: 0, afterBreak: 'again', onProgress: () => {} },
    },
    (key) => {
      shown = fingerprintOf(key);
      return hostKeys.length === 0 || hostKeys.includes(shown);
    },
  );
  const logIn = async (): Promise<Seen> => {
    try {
      await camera.connect();
    } catch (thrown) {
      if (shown === '' || hostKeys.length === 0 || hostKeys.includes(shown)) throw thrown;
      throw Object.assign(new Error(shown), { code: otherHostKey });
    }
    const args = { user: options.user, hostKey: shown };
    return { code: hostKeys.length === 0 ? 'logged-in' : 'logged-in-known', args };
  };
  const send = async (): Promise<Seen> => {
    const bytes = await testPicture();
    const began = performance.now();
    await camera.send({ folder: '', file: rehearsalPictureName, bytes });
    return {
      code: 'sent',
      args: { bytes: bytes.length, ms: performance.now() - began, name: rehearsalPictureName },
    };
  };
  return {
    steps: [
      ['log-in', logIn],
      ['send', send],
    ],
    ends: () => ({
      ...{ local: '', remote: options.host, told: null },
      hostKey: hostKeys.length === 0 && shown !== '' ? shown : null,
    }),
    close: () => camera.close(),
  };
}

/** As OpenSSH writes it, and the camera sheet: SHA-256 in base64 without padding. */
function fingerprintOf(key: Uint8Array): string {
  return `SHA256:${createHash('sha256').update(key).digest('base64').replace(/=+$/, '')}`;
}
