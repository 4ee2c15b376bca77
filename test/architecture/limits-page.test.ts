import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { defaultLimits } from '../../src/formats/index.ts';
import { defaultKeepLimits } from '../../src/keep/limits.ts';
import { defaultExchangeLimits } from '../../src/look/index.ts';
import { defaultFolderLimits, defaultFtpLimits, defaultSftpLimits } from '../../src/receive/index.ts';
import { defaultSendLimits } from '../../src/send/index.ts';
import { defaultWebLimits } from '../../src/serve/index.ts';
import { defaults } from '../../src/station/core/options.ts';

/**
 * docs/limits.md is written from the code: `npx vitest run test/architecture/limits-page.test.ts -u`. Names, defaults
 * and reasons are those of the options themselves.
 */
const root = join(import.meta.dirname, '../..');
const source = (path: string): string => readFileSync(join(root, path), 'utf8');

interface Section {
  readonly title: string;
  readonly path: string;
  readonly about: string;
  readonly defaults: Readonly<Record<string, number>>;
}

const sections: readonly Section[] = [
  {
    title: 'The FTP door',
    path: 'src/receive/ftp/core/limits.ts',
    about: 'Options of `startFtpDoor`; both sides of each are tried in `test/interop/ftp-limits.test.ts`.',
    defaults: { ...defaultFtpLimits },
  },
  {
    title: 'The SFTP door',
    path: 'src/receive/sftp/core/limits.ts',
    about: 'Options of `startSftpDoor`; what the FTP door has too means the same.',
    defaults: { ...defaultSftpLimits },
  },
  {
    title: 'A watched folder',
    path: 'src/receive/folder/core/limits.ts',
    about:
      'Options of `watchFolder`; tried in `src/receive/folder/` and `test/interop/watched-folder.test.ts`.',
    defaults: { ...defaultFolderLimits },
  },
  {
    title: 'Devices with a link',
    path: 'src/serve/core/limits.ts',
    about:
      'Options of `startWebDoor`; both sides of each are tried in `src/serve/links.test.ts` and `src/serve/link-door.test.ts`.',
    defaults: { ...defaultWebLimits },
  },
  {
    title: "A camera's folder",
    path: 'src/keep/limits.ts',
    about: 'Options of `openKeep`; tried in `src/keep/journalled-folder.test.ts` (K7.3).',
    defaults: { ...defaultKeepLimits },
  },
  {
    title: 'Files that are read',
    path: 'src/formats/limits.ts',
    about: 'Options of `inspect`; tried in `src/formats/*.test.ts` and by `npm run fuzz`.',
    defaults: { ...defaultLimits },
  },
  {
    title: 'Documents of looks',
    path: 'src/look/exchange/limits.ts',
    about:
      'Bounds of `readDocument` on CLF and ASC CDL; both sides are tried in `src/look/exchange/documents.test.ts`. A look itself has at most 65,536 characters.',
    defaults: { ...defaultExchangeLimits },
  },
  {
    title: 'Sending deliveries',
    path: 'src/send/core/limits.ts',
    about: 'Of `Sender`; a server that is silent or refuses, tried in `test/interop/send-*.test.ts`.',
    defaults: { ...defaultSendLimits },
  },
  {
    title: 'Pictures that are kept for pages',
    path: 'src/station/core/options.ts',
    about:
      'No stranger sends them, but every look and every size makes one more; both sides are tried in `src/station/rendering-shelf.test.ts`. `renderingsMB` in setside.json sets it. Regions and scenes stay within 1 GiB each.',
    defaults: { renderingsBytesMax: defaults.renderingsBytesMax },
  },
];

test('docs/limits.md names every limit a stranger meets, with its default and its reason', async () => {
  const pages = sections.map(sectionPage).join('\n');
  const head = `# Limits\n\nEverything that a stranger can send is bounded. This page is written from the code by a test.\n`;
  await expect(`${head}\n${pages}`).toMatchFileSnapshot(join(root, 'docs/limits.md'));
});

test('every limit has a reason', () => {
  for (const { path, defaults } of sections) {
    const reasons = reasonsFor(path);
    for (const name of Object.keys(defaults)) {
      expect(reasons.get(name)?.length ?? 0, name).toBeGreaterThan(20);
    }
  }
});

function sectionPage({ title, path, about, defaults }: Section): string {
  const reasons = reasonsFor(path);
  const rows = Object.entries(defaults).map(
    ([name, value]) => `| \`${name}\` | ${readable(name, value)} | ${reasons.get(name) ?? ''} |`,
  );
  return `## ${title}\n\n${about}\n\n| limit | default | what and why |\n| --- | --- | --- |\n${rows.join('\n')}\n`;
}

/** A door that has a limit of the FTP door by its name has it for the same reason. */
function reasonsFor(path: string): Map<string, string> {
  const elsewhere = ['src/receive/core/limits.ts', 'src/receive/ftp/core/limits.ts', path];
  return new Map(elsewhere.flatMap((from) => [...reasonsOf(source(from))]));
}

/** The comment in front of each field, as one line. */
function reasonsOf(text: string): Map<string, string> {
  const fields = text.matchAll(/\/\*\*((?:(?!\*\/).)*)\*\/\s+readonly (\w+): number;/gs);
  return new Map(
    [...fields].map(([, comment = '', name = '']): [string, string] => [
      name,
      comment
        .replace(/^\s*\* ?/gm, '')
        .replace(/\{@link (?:\w+\.)?(\w+)\}/g, '`$1`')
        .replace(/\s+/g, ' ')
        .trim(),
    ]),
  );
}

/** With the unit that the name ends in. */
function readable(name: string, value: number): string {
  if (/Ms(Max)?$/.test(name)) return value % 1000 === 0 ? `${value / 1000} s` : `${value} ms`;
  if (!/Bytes/.test(name)) return value.toLocaleString('en-US');
  const units = ['bytes', 'KiB', 'MiB', 'GiB'];
  let unit = 0;
  let shown = value;
  for (; shown % 1024 === 0 && shown > 0 && unit < 3; unit += 1) shown /= 1024;
  return `${shown} ${units[unit]}`;
}
