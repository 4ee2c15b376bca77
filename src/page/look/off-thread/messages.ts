import type { Finding } from '../../../facts/index.ts';
import type { ExrPicture } from '../../../image/index.ts';
import type { CompiledLook, Look, LookProfile, LookTable } from '../../../look/index.ts';
import type { Pace } from './compiler.ts';

/** What crosses to the thread; `bytes` are moved. */
export type WorkRequest = { readonly id: number } & (
  | { readonly kind: 'scene'; readonly bytes: ArrayBuffer }
  | { readonly kind: 'compile'; readonly look: Look; readonly profile: LookProfile; readonly pace: Pace }
);

/** What comes back. */
export type WorkReply = { readonly id: number } & (
  | { readonly kind: 'scene'; readonly picture: ExrPicture | null }
  | ({
      readonly kind: 'compile';
      /** `known`: the one that was sent before. */
      readonly table: LookTable | null | 'known';
      readonly findings: readonly Finding[];
    } & Pick<CompiledLook, 'matrix' | 'curve'>)
);
