import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { type Manifest, manifestCsv, manifestJson } from './manifest.ts';
import { specificationSchema } from './specification.ts';

const line = {
  file: 'Tea, "large".jpg',
  sha256: 'a'.repeat(64),
  bytes: 1234,
  widthPx: 20,
  heightPx: 10,
  frame: 'f1',
  shot: '=1+1',
  original: 'IMG\r\n1.dng',
  originalSha256: 'b'.repeat(64),
  look: 'Evening',
  lookSha256: 'c'.repeat(64),
  sentTo: 'sftp://client@files.example/~/A.jpg',
  findings: [{ code: 'deliver.enlarged', args: {} }],
};
const manifest: Manifest = {
  job: 'J1',
  specification: 'Print',
  specificationSha256: 'd'.repeat(64),
  asked: specificationSchema.parse({
    version: 1,
    title: 'Web',
    size: { kind: 'full' },
    format: { kind: 'png', depth: 8 },
  }),
  files: [line],
  missing: [{ frame: 'f2', original: 'b.dng', finding: { code: 'deliver.gone', args: {} } }],
};

/** RFC 4180, read by csv-parse, which knows nothing of us. */
test('the manifest as CSV reads back as it was, a formula as text', () => {
  const text = manifestCsv(manifest, ({ code }) => code);
  expect(text.split('\r\n')[0]).toBe(
    'file,sha256,bytes,widthPx,heightPx,frame,shot,original,originalSha256,look,lookSha256,sentTo,remark',
  );
  expect(text.endsWith('\r\n')).toBe(true);
  const rows: unknown = parse(text, { columns: true, record_delimiter: '\r\n' });
  expect(rows).toMatchObject(
    [
      {
        ...line,
        shot: "'=1+1",
        bytes: '1234',
        widthPx: '20',
        heightPx: '10',
        findings: undefined,
        remark: 'deliver.enlarged',
      },
      { file: '', frame: 'f2', original: 'b.dng', sha256: '', remark: 'deliver.gone' },
    ].map(({ findings, ...rest }: Record<string, unknown>) => rest),
  );
});

test('the manifest as JSON reads back as it was, and ends with a line feed', () => {
  expect(JSON.parse(manifestJson(manifest))).toEqual(manifest);
  expect(manifestJson(manifest).endsWith('}\n')).toBe(true);
});
