import { expect, test } from 'vitest';
import { environmentWishes } from './environment.ts';

test('a wish of the environment that is none is refused by the name of its variable', () => {
  for (const name of [
    'SETSIDE_WEB',
    'SETSIDE_FTP',
    'SETSIDE_SFTP',
    'SETSIDE_FTPS',
    'SETSIDE_PASSIVE',
    'SETSIDE_BIND',
    'SETSIDE_WATCH',
    'SETSIDE_ENCRYPTED_ONLY',
    'SETSIDE_SFTP_OLD_CAMERAS',
  ]) {
    expect(() => environmentWishes({ [name]: 'nonsense' }, false), name).toThrow(`${name}: expected`);
  }
});

test('where real frames are kept is not where a demo keeps its own', () => {
  const environment = {
    SETSIDE_HOME: '/home/somebody/work',
    SETSIDE_COPY: '/media/second',
    SETSIDE_WATCH: 'cam1=/media/card',
    SETSIDE_WEB: '0',
  };
  expect(environmentWishes(environment, false)).toEqual({
    home: '/home/somebody/work',
    copy: ['/media/second'],
    watch: [{ camera: 'cam1', folder: '/media/card' }],
    web: 0,
  });
  expect(environmentWishes(environment, true)).toEqual({ web: 0 });
});
