import { createHash, createHmac } from 'node:crypto';

/** A request as it came over the wire. */
export interface SignedRequest {
  readonly method: string;
  /** Path with query, as it stood in the request. */
  readonly target: string;
  /** By lower-case names. */
  readonly headers: Readonly<Record<string, string>>;
}

/**
 * The signature that a request has to have: AWS Signature Version 4 as the Amazon S3 API Reference tells it ("Signature Calculations for
 * the Authorization Header", steps 1 to 3). Written from there, so that the client's own arithmetic is not its judge.
 */
export function signatureOf(
  { method, target, headers }: SignedRequest,
  signed: readonly string[],
  scope: { readonly day: string; readonly region: string },
  secretAccessKey: string,
): string {
  const [path = '/', query = ''] = target.split('?');
  const canonical = [
    method,
    path,
    query
      .split('&')
      .filter((pair) => pair !== '')
      .map((pair) => (pair.includes('=') ? pair : `${pair}=`))
      .sort()
      .join('&'),
    ...signed.map((name) => `${name}:${(headers[name] ?? '').trim().replace(/ +/g, ' ')}`),
    '',
    signed.join(';'),
    headers['x-amz-content-sha256'] ?? '',
  ].join('\n');
  const whole = `${scope.day}/${scope.region}/s3/aws4_request`;
  const text = ['AWS4-HMAC-SHA256', headers['x-amz-date'] ?? '', whole, sha256(canonical)].join('\n');
  const key = ['s3', 'aws4_request'].reduce(
    hmac,
    hmac(hmac(`AWS4${secretAccessKey}`, scope.day), scope.region),
  );
  return hmac(key, text).toString('hex');
}

/** Whether the request is signed by who has the secret, over the day and region it says. */
export function isSignedBy(request: SignedRequest, accessKeyId: string, secretAccessKey: string): boolean {
  const said =
    /^AWS4-HMAC-SHA256 Credential=([^/]+)\/(\d{8})\/([^/]+)\/s3\/aws4_request, ?SignedHeaders=([^,]+), ?Signature=([0-9a-f]{64})$/.exec(
      request.headers.authorization ?? '',
    );
  if (said === null || said[1] !== accessKeyId) return false;
  const [, , day = '', region = '', names = '', signature] = said;
  return signatureOf(request, names.split(';'), { day, region }, secretAccessKey) === signature;
}

function sha256(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

function hmac(key: string | Buffer, text: string): Buffer {
  return createHmac('sha256', key).update(text).digest();
}
