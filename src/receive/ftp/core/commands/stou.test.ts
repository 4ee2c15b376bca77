import { expect, test } from 'vitest';
import type { FolderEntry } from '../../../core/camera-folder.ts';
import { easyScript, Talk } from '../../../testing/talk.ts';

const file = (name: string): FolderEntry => ({ name, kind: 'file', sizeBytes: 1, modifiedMs: 0 });

/** What STOU says and where it opens the file, in a folder that holds `names`. */
function stou(line: string, names: readonly string[] = []): { said: string; path: unknown } {
  let path: unknown = null;
  const talk = Talk.loggedIn({
    ...easyScript,
    list: () => ({ ok: true, value: names.map(file) }),
    open: ({ request }) => {
      path = 'path' in request ? request.path : null;
      return { ok: true, value: { offsetBytes: 0 } };
    },
  });
  talk.say('PASV');
  talk.feed({ kind: 'data-connected' });
  talk.say(line);
  return { said: talk.said.split('\r\n').at(-2) ?? '', path };
}

test('STOU says the name in exactly the form of RFC 1123 section 4.1.2.9', () => {
  expect(stou('STOU')).toEqual({ said: '150 FILE: /UPLOAD', path: '/UPLOAD' });
});

test('STOU takes the name a client wishes while it is free, and else the next number', () => {
  expect(stou('STOU A.DNG', ['B.DNG']).path).toBe('/A.DNG');
  expect(stou('STOU A.DNG', ['A.DNG', 'A (2).DNG'])).toEqual({
    said: '150 FILE: /A (3).DNG',
    path: '/A (3).DNG',
  });
  expect(stou('STOU d/.hidden', ['.hidden']).path).toBe('/d/.hidden (2)');
});

test('STOU whose number makes the name too long is refused, as any long name is', () => {
  const longest = 'n'.repeat(255);
  expect(stou(`STOU ${longest}`).path).toBe(`/${longest}`);
  expect(stou(`STOU ${longest}`, [longest]).said).toMatch(/^553 /);
});

test('STOU in a folder that is not there is refused before the 150', () => {
  const talk = Talk.loggedIn({ ...easyScript, list: () => ({ ok: false, code: 'not-found' }) });
  talk.say('PASV', 'STOU nowhere/a');
  expect(talk.codes).toEqual([227, 550]);
});
