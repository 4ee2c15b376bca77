import { expect, test } from 'vitest';
import { emptyDraft, isSameFingerprint, readDraft } from './destination-draft.ts';

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
