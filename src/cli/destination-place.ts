import { SetsideError } from '../base/index.ts';
import { type DestinationPlace, destinationPlace } from '../contract/index.ts';

/** How a person says where. */
export interface PlaceFlags {
  readonly folder?: string;
  readonly sftp?: string;
  readonly port: string;
  readonly path: string;
  readonly hostKey?: string;
  readonly key?: string;
  readonly s3?: string;
  readonly region: string;
  readonly endpoint?: string;
  readonly prefix: string;
  readonly pathStyle: boolean;
  readonly accessKeyId?: string;
}

/** The place that was said. Throws `bad-destination`. */
export function placeOf(flags: PlaceFlags): DestinationPlace {
  const said = [flags.folder, flags.sftp, flags.s3].filter((each) => each !== undefined);
  if (said.length !== 1) throw wrong('a destination is one of --folder, --sftp and --s3');
  const parsed = destinationPlace.safeParse(wishOf(flags));
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  throw wrong(`${optionOf(issue?.path[0])}: ${issue?.message ?? 'not allowed'}`);
}

function wishOf(flags: PlaceFlags): unknown {
  const { folder, sftp, port, path, key, hostKey = null } = flags;
  if (folder !== undefined) return { kind: 'folder', path: folder };
  if (sftp !== undefined) {
    const at = sftp.lastIndexOf('@');
    const [user, host] = [sftp.slice(0, Math.max(0, at)), sftp.slice(at + 1)];
    const logInBy = key === undefined ? 'password' : 'key';
    return { kind: 'sftp', host, port: Number(port), user, path, logInBy, hostKey };
  }
  const { s3: bucket, region, endpoint = null, prefix, pathStyle, accessKeyId } = flags;
  return { kind: 's3', bucket, region, endpoint, prefix, pathStyle, accessKeyId };
}

const options: Readonly<Record<string, string>> = {
  host: '--sftp',
  user: '--sftp',
  bucket: '--s3',
  hostKey: '--host-key',
  accessKeyId: '--access-key-id',
};

function optionOf(member: PropertyKey | undefined): string {
  const name = String(member);
  return options[name] ?? `--${name}`;
}

function wrong(message: string): SetsideError {
  return new SetsideError('bad-destination', message, {
    cure: 'setside destination add --help shows how each is said.',
  });
}
