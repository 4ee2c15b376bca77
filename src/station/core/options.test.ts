import { expect, test } from 'vitest';
import { defaults, parsePort, parsePortRange, parseWatch, resolveOptions } from './options.ts';

test('with no wish at all, the settled defaults hold', () => {
  const options = resolveOptions([{}, {}], '/home/somebody/Setside');
  expect(options).toMatchObject({
    home: '/home/somebody/Setside',
    webPort: 8460,
    ftpPorts: [21, 2121],
    bind: null,
  });
  expect(options.passive).toEqual({ from: 50_000, to: 50_099 });
  expect(Object.isFrozen(options)).toBe(true);
});

test('a flag wins over the environment, the environment over the settings file, also when it is 0', () => {
  const options = resolveOptions(
    [{ web: 0 }, { web: 1, ftp: 2 }, { web: 9, ftp: 9, bind: '10.0.0.1' }],
    '/h',
  );
  expect(options).toMatchObject({ webPort: 0, ftpPorts: [2], bind: '10.0.0.1' });
});

test('ports outside 0 to 65535 and anything that is no port are refused by where they were written', () => {
  expect([parsePort('0', '--web'), parsePort('65535', '--web')]).toEqual([0, 65_535]);
  for (const text of ['65536', '-1', '21 ', '2e3', '', '21x']) {
    expect(() => parsePort(text, 'SETSIDE_WEB'), text).toThrow(/^SETSIDE_WEB: expected a port/);
  }
});

test('a watched folder is a camera and a folder, which may hold an equals sign', () => {
  expect(parseWatch('cam-2=/media/a=b', '--watch')).toEqual({ camera: 'cam-2', folder: '/media/a=b' });
  for (const text of ['/media/card', '=/media/card', 'cam1=', 'a b=/c']) {
    expect(() => parseWatch(text, '--watch'), text).toThrow(/--watch/);
  }
  for (const name of ["Kart'e 1", '-cam', 'c'.repeat(41)]) {
    expect(() => parseWatch(`${name}=/media/card`, '--watch'), name).toThrow(
      /1 to 40 letters from a to z, digits and hyphens/,
    );
  }
});

test('a passive range is two ports above 1023, the lower first', () => {
  expect(parsePortRange('1024-65535', '--passive')).toEqual({ from: 1024, to: 65_535 });
  for (const text of ['1023-2000', '2000-1999', '50000', '50000-65536', 'a-b']) {
    expect(() => parsePortRange(text, '--passive'), text).toThrow(/--passive/);
  }
  expect(defaults.passive.to - defaults.passive.from).toBe(99);
});
