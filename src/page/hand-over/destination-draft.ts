import { destinationName, type PutDestination, putDestination } from '../../contract/index.ts';

/** What is typed of a new destination, as it stands in the fields. */
export interface DestinationDraft {
  readonly name: string;
  readonly kind: 'folder' | 'sftp' | 's3';
  readonly path: string;
  readonly host: string;
  readonly port: string;
  readonly user: string;
  readonly logInBy: 'password' | 'key';
  readonly bucket: string;
  readonly region: string;
  readonly endpoint: string;
  readonly prefix: string;
  readonly pathStyle: boolean;
  readonly accessKeyId: string;
  readonly secret: string;
}

export const emptyDraft: DestinationDraft = {
  name: '',
  kind: 'folder',
  path: '',
  host: '',
  port: '22',
  user: '',
  logInBy: 'password',
  bucket: '',
  region: '',
  endpoint: '',
  prefix: '',
  pathStyle: false,
  accessKeyId: '',
  secret: '',
};

export type DraftField = keyof DestinationDraft;

export type DraftRead =
  | { readonly name: string; readonly wish: PutDestination }
  /** The first field that cannot be right; `taken`: another destination has the name. */
  | { readonly wrong: DraftField; readonly taken: boolean };

/** What the station is to be told, or what has to be mended first. `names`: of destinations that are there. */
export function readDraft(draft: DestinationDraft, names: readonly string[]): DraftRead {
  const name = draft.name.trim();
  if (!destinationName.safeParse(name).success) return { wrong: 'name', taken: false };
  if (names.includes(name)) return { wrong: 'name', taken: true };
  const secret = draft.kind === 'folder' || draft.secret === '' ? {} : { secret: draft.secret };
  const read = putDestination.safeParse({ place: placeOf(draft), ...secret });
  if (read.success) return { name, wish: read.data };
  const at = String(read.error.issues[0]?.path.at(-1) ?? '');
  return { wrong: isField(at) ? at : 'path', taken: false };
}

function placeOf(draft: DestinationDraft): unknown {
  const { kind, path, host, port, user, logInBy } = draft;
  const { bucket, region, endpoint, prefix, pathStyle, accessKeyId } = draft;
  switch (kind) {
    case 'folder':
      return { kind, path };
    case 'sftp':
      return { kind, host: host.trim(), port: Number(port), user, path: path === '' ? '.' : path, logInBy };
    case 's3':
      return {
        ...{ kind, bucket: bucket.trim(), region: region.trim(), prefix, pathStyle },
        ...{ endpoint: endpoint.trim() === '' ? null : endpoint.trim(), accessKeyId: accessKeyId.trim() },
      };
  }
}

function isField(name: string): name is DraftField {
  return Object.hasOwn(emptyDraft, name);
}

/** A fingerprint as people pass it on: with words of `ssh-keygen -l` about it, or only what is behind `SHA256:`. */
export function isSameFingerprint(said: string, shown: string): boolean {
  const [, bare] = shown.split(':');
  return bare !== undefined && said.split(/\s+/).some((word) => word === shown || word === bare);
}
