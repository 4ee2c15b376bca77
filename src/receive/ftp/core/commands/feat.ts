import { type Command, immediate } from '../command.ts';
import { factNames } from '../session-state.ts';

/** RFC 2389 section 3.2: one feature per line; those of TLS as RFC 4217 section 6 lists them. */
export const feat: Command = {
  verb: 'FEAT',
  needs: 'nothing',
  run: immediate(({ state, tls }) => ({
    code: 211,
    text: 'Features:',
    inner: [
      ...(tls === null ? [] : ['AUTH TLS', 'PBSZ', 'PROT']),
      'EPRT',
      'EPSV',
      'MDTM',
      'MFMT',
      // RFC 3659 section 7.8: a star behind each fact that is sent.
      `MLST ${factNames.map((fact) => `${fact}${state.facts.includes(fact) ? '*' : ''};`).join('')}`,
      'PASV',
      'REST STREAM',
      'SIZE',
      'UTF8',
    ],
  })),
};
