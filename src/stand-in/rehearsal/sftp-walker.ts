import { rehearsalPictureName } from '../../line/index.ts';
import { SftpCamera } from '../sftp-camera.ts';
import type { RehearsalOptions, Seen, Walker } from './shapes.ts';
import { testPicture } from './test-picture.ts';

/** SFTP needs one connection for all: once it has logged in there is no second that could be shut. */
export function sftpWalker(options: RehearsalOptions, stepMs: number): Walker {
  const camera = new SftpCamera({
    ...options,
    silenceMs: stepMs,
    paceBytesPerSecond: Number.POSITIVE_INFINITY,
    ...{ retries: 0, resendAfterMs: 0, afterBreak: 'again', onProgress: () => {} },
  });
  const logIn = async (): Promise<Seen> => {
    await camera.connect();
    return { code: 'logged-in', args: { user: options.user } };
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
    ends: () => ({ local: '', remote: options.host, told: null }),
    close: () => camera.close(),
  };
}
