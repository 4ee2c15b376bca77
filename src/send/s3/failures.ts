import { errorCode } from '../../base/index.ts';
import { SendFailure } from '../core/failure.ts';

/** What the client throws: a name by the service's error code, and the status of the answer. */
export function s3Name(thrown: unknown): string {
  return thrown instanceof Error && thrown.name !== 'Error' ? thrown.name : errorCode(thrown);
}

export function s3Status(thrown: unknown): number | null {
  const about: unknown =
    typeof thrown === 'object' && thrown !== null ? Reflect.get(thrown, '$metadata') : undefined;
  const status: unknown =
    typeof about === 'object' && about !== null ? Reflect.get(about, 'httpStatusCode') : undefined;
  return typeof status === 'number' ? status : null;
}

/** Amazon S3 API Reference, "Error responses" (from memory). What services beside it say is told by the status. */
const byName: Readonly<Record<string, (host: string) => SendFailure>> = {
  InvalidAccessKeyId: (host) => new SendFailure('stop', 'send.log-in-refused', { host }),
  SignatureDoesNotMatch: (host) => new SendFailure('stop', 'send.log-in-refused', { host }),
  NoSuchBucket: () => new SendFailure('stop', 'send.no-bucket', {}),
  PermanentRedirect: () => new SendFailure('stop', 'send.other-region', {}),
  AuthorizationHeaderMalformed: () => new SendFailure('stop', 'send.other-region', {}),
  RequestTimeTooSkewed: () => new SendFailure('stop', 'send.clock-off', {}),
  QuotaExceeded: () => new SendFailure('stop', 'send.disk-full', {}),
  BadDigest: (host) => new SendFailure('again', 'send.line-cut', { host }),
  XAmzContentChecksumMismatch: (host) => new SendFailure('again', 'send.line-cut', { host }),
  RequestTimeout: (host) => new SendFailure('again', 'send.line-cut', { host }),
};

export function s3Failure(thrown: unknown, host: string, name: string): SendFailure {
  if (thrown instanceof SendFailure) return thrown;
  const why = s3Name(thrown);
  const known = Object.hasOwn(byName, why) ? byName[why] : undefined;
  if (known !== undefined) return known(host);
  const status = s3Status(thrown);
  // No answer at all; Node's code says why.
  if (status === null) {
    const code = errorCode(thrown);
    if (/CERT|SELF_SIGNED|UNABLE_TO/.test(code)) {
      return new SendFailure('stop', 'send.certificate', { host, why: code }, thrown);
    }
    return new SendFailure('again', 'send.no-answer', { host, why: code === 'unknown' ? why : code }, thrown);
  }
  if (status === 507) return new SendFailure('stop', 'send.disk-full', {}, thrown);
  if (status === 401 || status === 403) return new SendFailure('stop', 'send.not-allowed', { why }, thrown);
  if (status === 409 || status === 429 || status >= 500) {
    return new SendFailure('again', 'send.refused', { name, why: `${status} ${why}` }, thrown);
  }
  return new SendFailure('stop', 'send.refused', { name, why: `${status} ${why}` }, thrown);
}
