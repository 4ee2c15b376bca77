import {
  type Destination,
  destinationName,
  type PutDestination,
  putDestination,
} from '../../contract/index.ts';

/** What is typed of a destination, as it stands in the fields. */
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

/** What is known of one that is to be changed. Its secret is not: the field stands empty. */
export function draftOf({ name, place }: Destination): DestinationDraft {
  const draft = { ...emptyDraft, name };
  switch (place.kind) {
    case 'folder':
      return { ...draft, ...place };
    case 'sftp': {
      const { hostKey: _hostKey, port, ...typed } = place;
      return { ...draft, ...typed, port: String(port) };
    }
    case 's3':
      return { ...draft, ...place, endpoint: place.endpoint ?? '' };
  }
}

export type DraftField = keyof DestinationDraft;

export type DraftRead =
  | { readonly name: string; readonly wish: PutDestination }
  /** The first field that cannot be right; `taken`: another destination has the name. */
  | { readonly wrong: DraftField; readonly taken: boolean };

/**
 * What the station is to be told, or what has to be mended first. `names`: of destinations that are there; `before`: the one that is changed,
 * whose key is trusted on as long as it is the same server.
 */
export function readDraft(
  draft: DestinationDraft,
  names: readonly string[],
  before: Destination | null = null,
): DraftRead {
  const name = draft.name.trim();
  if (!destinationName.safeParse(name).success) return { wrong: 'name', taken: false };
  if (name !== before?.name && names.includes(name)) return { wrong: 'name', taken: true };
  const secret = draft.kind === 'folder' || draft.secret === '' ? {} : { secret: draft.secret };
  const renamed = before === null || before.name === name ? {} : { name };
  const read = putDestination.safeParse({ place: placeOf(draft), ...secret, ...renamed });
  if (read.success) {
    const { place } = read.data;
    const hostKey = place.kind === 'sftp' ? trustedKey(place, before) : null;
    const wish = place.kind === 'sftp' ? { ...read.data, place: { ...place, hostKey } } : read.data;
    return { name: before?.name ?? name, wish };
  }
  const at = String(read.error.issues[0]?.path.at(-1) ?? '');
  return { wrong: isField(at) ? at : 'path', taken: false };
}

/** Of the same server, by the name and the port it is reached at. */
function trustedKey(
  { host, port }: { readonly host: string; readonly port: number },
  before: Destination | null,
): string | null {
  const place = before?.place;
  return place?.kind === 'sftp' && place.host === host && place.port === port ? place.hostKey : null;
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
