/** authority: the station's own certificate authority. Names in, certificates out; keys stay in one folder. */
export { type Authority, type AuthorityOptions, openAuthority } from './authority.ts';
export type { ServerNames } from './core/server-names.ts';
export { type AuthorityErrorCode, authorityErrorCodes } from './errors.ts';
export { readSecret, writeSecret } from './secret-file.ts';
export type { RootCertificate, ServerCredentials } from './shapes.ts';
