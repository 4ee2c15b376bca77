import type { S3Client } from '@aws-sdk/client-s3';
import { s3Status } from './failures.ts';

export type S3Module = typeof import('@aws-sdk/client-s3');

/** What every call about one object needs. */
export interface S3Object {
  readonly s3: S3Module;
  readonly client: S3Client;
  readonly named: { readonly Bucket: string; readonly Key: string };
}

/**
 * `If-None-Match: *` (RFC 9110 section 13.1.2) keeps another's object from being overwritten where the service knows it. One that does
 * not is asked without, after a look whether the name is free.
 */
export async function unlessUnknown<Answer>(
  ask: (onlyIfNew: { readonly IfNoneMatch?: string }) => Promise<Answer>,
): Promise<Answer> {
  try {
    return await ask({ IfNoneMatch: '*' });
  } catch (thrown) {
    if (s3Status(thrown) !== 501) throw thrown;
    return ask({});
  }
}
