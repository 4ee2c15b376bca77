import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { DestinationPlace } from '../../src/contract/index.ts';
import { defaultSendLimits, tryPlace } from '../../src/send/index.ts';
import { signatureOf } from './s3-signature.ts';
import { S3Stub } from './s3-stub.ts';
import { refusalOf, SendBench } from './send-bench.ts';

const MiB = 1024 * 1024;

/** Amazon S3 API Reference, "Signature Calculations for the Authorization Header", example "GET Object" (from memory). */
test('what judges signatures gives the published signature of the published request', () => {
  const headers = {
    host: 'examplebucket.s3.amazonaws.com',
    range: 'bytes=0-9',
    'x-amz-content-sha256': 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855',
    'x-amz-date': '20130524T000000Z',
  };
  const signed = ['host', 'range', 'x-amz-content-sha256', 'x-amz-date'];
  const scope = { day: '20130524', region: 'us-east-1' };
  const secret = 'wJalrXUtnFEMI/K7MDENG/bPxRfiCYEXAMPLEKEY';
  expect(signatureOf({ method: 'GET', target: '/test.txt', headers }, signed, scope, secret)).toBe(
    'f0e8bdb87c964420e857bd35b5d6ed310bd44f0170aba48dd91039c6036bdb41',
  );
});

/**
 * Against a stub of the service: no general-purpose server of this interface can be had from Debian or npm. The stub checks every
 * signature and every checksum itself.
 */
describe('files to S3-compatible storage', () => {
  let stub: S3Stub;
  let bench: SendBench;
  let endpoint: string;

  beforeEach(async () => {
    stub = new S3Stub();
    endpoint = await stub.start();
    bench = new SendBench();
  });

  afterEach(async () => {
    bench.remove();
    await stub.stop();
  });

  function place(): Extract<DestinationPlace, { kind: 's3' }> {
    const { bucket, accessKeyId } = stub;
    return {
      kind: 's3',
      bucket,
      region: 'eu-north-1',
      endpoint,
      prefix: 'client/',
      pathStyle: true,
      accessKeyId,
    };
  }
  const sentParts = (): string[] => stub.calls.filter((call) => call.startsWith('PUT part'));

  test('a small file goes at once, with its checksum; nothing is there under its name before', async () => {
    const file = bench.file('QM-26 ä+b.jpg', 3000);
    const sent = await bench.send(place(), stub.secret, file, { below: ['QM-26', 'Web shop'] });
    const key = 'client/QM-26/Web shop/QM-26 ä+b.jpg';
    expect(sent).toEqual({ where: `s3://handed-over/${key}`, proof: 'checksum' });
    expect(stub.objects.get(key)?.bytes.equals(readFileSync(file.path))).toBe(true);
    expect(stub.calls).toEqual(['HEAD object', 'PUT object', 'HEAD object']);
  });

  test('a large one goes in parts, and its object has the checksum of the parts’ checksums', async () => {
    const file = bench.file('a.tif', 20 * MiB + 1);
    expect((await bench.send(place(), stub.secret, file)).proof).toBe('checksum');
    expect(stub.objects.get('client/a.tif')?.bytes.equals(readFileSync(file.path))).toBe(true);
    expect(sentParts()).toEqual(['PUT part 1', 'PUT part 2', 'PUT part 3']);
    expect(stub.uploads.size).toBe(0);
  });

  test('after a line that was cut, and in another process, parts that are there are not sent again', async () => {
    const file = bench.file('a.tif', 30 * MiB);
    stub.manners = { partsOfPage: 1 };
    stub.cutsBefore = (call) => call === 'PUT part 3';
    const refusal = await refusalOf(bench.send(place(), stub.secret, file));
    expect(refusal).toMatchObject({ next: 'again', finding: { code: 'send.no-answer' } });
    stub.cutsBefore = () => false;
    stub.calls.length = 0;
    // The token is all that is left of the first attempt.
    await bench.send(place(), stub.secret, file);
    expect(sentParts()).toEqual(['PUT part 3', 'PUT part 4']);
    expect(stub.objects.get('client/a.tif')?.bytes.equals(readFileSync(file.path))).toBe(true);
  });

  test('a part that lies there with other bytes is sent again', async () => {
    const file = bench.file('a.tif', 20 * MiB);
    stub.cutsBefore = (call) => call === 'PUT part 3';
    await refusalOf(bench.send(place(), stub.secret, file));
    stub.cutsBefore = () => false;
    stub.uploads.get(bench.token ?? '')?.parts.set(1, Buffer.alloc(8 * MiB));
    stub.calls.length = 0;
    await bench.send(place(), stub.secret, file);
    expect(sentParts()).toEqual(['PUT part 1', 'PUT part 3']);
    expect(stub.objects.get('client/a.tif')?.bytes.equals(readFileSync(file.path))).toBe(true);
  });

  test('an answer that is lost at the very end: the object is found and not sent twice', async () => {
    const file = bench.file('a.tif', 9 * MiB);
    let isLost = false;
    stub.cutsAfter = (call) => {
      const cuts = call === 'POST upload' && !isLost;
      isLost ||= cuts;
      return cuts;
    };
    expect((await bench.send(place(), stub.secret, file)).proof).toBe('checksum');
    expect(isLost).toBe(true);
    expect(sentParts()).toHaveLength(2);
  });

  test('an upload that the service let go of is begun anew', async () => {
    const file = bench.file('a.tif', 9 * MiB);
    bench.token = 'upload-of-last-year';
    await bench.send(place(), stub.secret, file);
    expect(bench.token).toBe('upload-1');
    expect(sentParts()).toHaveLength(2);
  });

  test.each([{}, { noConditions: true }, { noChecksums: true }, { noChecksums: true, noConditions: true }])(
    'another’s object is never overwritten, the same bytes are as good as sent: %o',
    async (manners) => {
      stub.manners = manners;
      const [file, other] = [bench.file('a.tif', 9 * MiB), bench.file('b.tif', 9 * MiB, 5)];
      const proof = 'noChecksums' in manners ? 'read-back' : 'checksum';
      expect((await bench.send(place(), stub.secret, file)).proof).toBe(proof);
      stub.calls.length = 0;
      expect((await bench.send(place(), stub.secret, file)).proof).toBe(proof);
      expect(sentParts()).toEqual([]);
      const refusal = await refusalOf(bench.send(place(), stub.secret, { ...other, name: 'a.tif' }));
      expect(refusal).toMatchObject({ next: 'file', finding: { code: 'send.name-taken' } });
      expect(stub.objects.get('client/a.tif')?.bytes.equals(readFileSync(file.path))).toBe(true);
    },
  );

  test.each([
    ['a.jpg', 3000, 'PUT object'],
    ['a.tif', 9 * MiB, 'POST upload'],
  ])('an object of another that comes while ours is sent stays: %s', async (name, bytes, last) => {
    const file = bench.file(name, bytes);
    stub.cutsBefore = (call) => {
      if (call === last) stub.objects.set(`client/${name}`, { bytes: Buffer.from('theirs'), checksum: '' });
      return false;
    };
    const refusal = await refusalOf(bench.send(place(), stub.secret, file));
    expect(refusal.finding.code).toBe('send.name-taken');
    expect(stub.objects.get(`client/${name}`)?.bytes.toString()).toBe('theirs');
  });

  test('a wrong secret, a bucket that is not there and no answer are told apart', async () => {
    const file = bench.file('a.jpg', 10);
    const wrong = await refusalOf(bench.send(place(), 'wrong/Secret', file));
    expect(wrong).toMatchObject({ next: 'stop' });
    expect(JSON.stringify(wrong.finding)).not.toContain('wrong/Secret');
    const other = await refusalOf(bench.send({ ...place(), bucket: 'somebody' }, stub.secret, file));
    expect(other.next).toBe('stop');
    await stub.stop();
    const silent = await refusalOf(bench.send(place(), stub.secret, file));
    expect(silent).toMatchObject({ next: 'again', finding: { code: 'send.no-answer' } });
    await stub.start();
  });

  test('what was begun is given up where a person ends it', async () => {
    const file = bench.file('a.tif', 20 * MiB);
    stub.cutsBefore = (call) => call === 'PUT part 3';
    await refusalOf(bench.send(place(), stub.secret, file));
    expect(stub.uploads.size).toBe(1);
    const sender = bench.sender(place(), stub.secret);
    await sender.letGo(file, bench.token, bench.abort.signal);
    sender.close();
    expect(stub.uploads.size).toBe(0);
  });

  test('a file that has changed since it was made is not handed over', async () => {
    const file = bench.file('a.jpg', 3000);
    const refusal = await refusalOf(bench.send(place(), stub.secret, { ...file, sha256: '0'.repeat(64) }));
    expect(refusal).toMatchObject({ next: 'file', finding: { code: 'send.file-changed' } });
    expect(stub.objects.size).toBe(0);
  });

  test('a small file is tried and taken away again; that nothing is encrypted is said', async () => {
    const tried = await tryPlace(place(), async () => stub.secret, defaultSendLimits, bench.abort.signal);
    expect(tried).toEqual({
      hostKey: null,
      proof: 'checksum',
      findings: [{ code: 'send.in-clear', args: {} }],
    });
    expect(stub.objects.size).toBe(0);
  });
});
