import { expect, test } from 'vitest';
import type { Destination, DestinationPlace } from '../../contract/index.ts';
import { draftOf, emptyDraft, isSameFingerprint, readDraft } from './destination-draft.ts';

const sftp = {
  ...emptyDraft,
  name: 'printer',
  kind: 'sftp',
  host: ' files.example ',
  user: 'studio',
} as const;

test('what is typed becomes what the station is told; a secret only where there is one', () => {
  expect(readDraft({ ...sftp, secret: 'pass word' }, [])).toEqual({
    name: 'printer',
    wish: {
      place: {
        ...{ kind: 'sftp', host: 'files.example', port: 22, user: 'studio', path: '.' },
        ...{ logInBy: 'password', hostKey: null },
      },
      secret: 'pass word',
    },
  });
  expect(readDraft({ ...emptyDraft, name: 'disk', path: '/media/CLIENT', secret: 'left over' }, [])).toEqual({
    name: 'disk',
    wish: { place: { kind: 'folder', path: '/media/CLIENT' } },
  });
  const bucket = { ...emptyDraft, name: 'b', kind: 's3', bucket: 'shots', region: 'eu-1' } as const;
  expect(readDraft({ ...bucket, accessKeyId: 'AK', secret: 's' }, [])).toMatchObject({
    wish: { place: { endpoint: null, prefix: '', pathStyle: false } },
  });
});

const hostKey = `SHA256:${'A'.repeat(43)}`;
const printer: Destination = {
  name: 'printer',
  place: {
    kind: 'sftp',
    host: 'files.example',
    port: 2222,
    user: 'studio',
    path: 'in',
    logInBy: 'key',
    hostKey,
  },
  secret: 'kept',
};

test('one that is changed is told as it is but for what was typed; its secret only where one was', () => {
  const draft = draftOf(printer);
  expect(draft).toMatchObject({ name: 'printer', port: '2222', secret: '' });
  const read = (part: Partial<typeof draft>) => readDraft({ ...draft, ...part }, ['printer', 'lab'], printer);
  expect(read({})).toEqual({ name: 'printer', wish: { place: printer.place } });
  expect(read({ path: 'out', secret: 's' })).toMatchObject({ wish: { place: { path: 'out' }, secret: 's' } });
  expect(read({ name: 'press' })).toMatchObject({ name: 'printer', wish: { name: 'press' } });
  expect(read({ name: 'lab' })).toEqual({ wrong: 'name', taken: true });
  const places: readonly DestinationPlace[] = [
    { kind: 'folder', path: '/media/CLIENT' },
    {
      kind: 's3',
      bucket: 'shots',
      region: 'eu-1',
      endpoint: null,
      prefix: 'a/',
      pathStyle: true,
      accessKeyId: 'AK',
    },
  ];
  for (const place of places) {
    const other = { name: 'other', place, secret: null };
    expect(readDraft(draftOf(other), ['other'], other)).toEqual({ name: 'other', wish: { place } });
  }
});

test('a key is trusted on for the same server and port only', () => {
  const keyOf = (part: object) => readDraft({ ...draftOf(printer), ...part }, ['printer'], printer);
  expect(keyOf({ user: 'other' })).toMatchObject({ wish: { place: { hostKey } } });
  expect(keyOf({ host: 'evil.example' })).toMatchObject({ wish: { place: { hostKey: null } } });
  expect(keyOf({ port: '22' })).toMatchObject({ wish: { place: { hostKey: null } } });
});

test('the field that cannot be right is named', () => {
  const wrong = (draft: typeof emptyDraft, names: readonly string[] = []) => readDraft(draft, names);
  expect(wrong(emptyDraft)).toEqual({ wrong: 'name', taken: false });
  expect(wrong(sftp, ['printer'])).toEqual({ wrong: 'name', taken: true });
  expect(wrong({ ...sftp, port: '0' })).toMatchObject({ wrong: 'port' });
  expect(wrong({ ...sftp, port: 'x' })).toMatchObject({ wrong: 'port' });
  expect(wrong({ ...sftp, host: 'a b' })).toMatchObject({ wrong: 'host' });
  expect(wrong({ ...emptyDraft, name: 'disk' })).toMatchObject({ wrong: 'path' });
  expect(wrong({ ...emptyDraft, name: 'disk', path: '/media/..' })).toMatchObject({ wrong: 'path' });
});

test('a fingerprint is the same as ssh-keygen -l prints it, alone, or without its kind; one letter off is not', () => {
  const shown = `SHA256:${'a'.repeat(43)}`;
  expect(isSameFingerprint(`256 ${shown} root@files (ED25519)`, shown)).toBe(true);
  expect(isSameFingerprint(` ${'a'.repeat(43)} `, shown)).toBe(true);
  expect(isSameFingerprint(`SHA256:${'a'.repeat(42)}A`, shown)).toBe(false);
  expect(isSameFingerprint('', shown)).toBe(false);
  expect(isSameFingerprint('SHA256:', shown)).toBe(false);
});
