import type { FuzzTarget } from '../target.ts';

/** By name. Loaded only when asked for, so that coverage can begin before the sources are there. */
export const targets: Readonly<Record<string, () => Promise<FuzzTarget>>> = {
  session: async () => (await import('./session.ts')).sessionTarget,
  sftp: async () => (await import('./sftp.ts')).sftpTarget,
  formats: async () => (await import('./formats.ts')).formatsTarget,
  journal: async () => (await import('./journal.ts')).journalTarget(),
};
