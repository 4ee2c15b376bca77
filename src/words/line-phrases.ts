import { type Args, textArg } from './phrases.ts';

/** Its name, where it is known whose way it is. */
export function cameraPhrase(args: Args): string {
  return args.camera === undefined || args.camera === '' ? 'the camera' : textArg(args, 'camera');
}

/** `port 21` or `ports 21, 50000-50099`. */
export function portsPhrase(args: Args): string {
  const ports = textArg(args, 'ports');
  return /[,-]/.test(ports) ? `ports ${ports}` : `port ${ports}`;
}
