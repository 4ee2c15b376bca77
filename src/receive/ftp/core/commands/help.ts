import { type Command, immediate } from '../command.ts';

/** RFC 959 section 4.1.3: the commands of this door. */
export function helpFor(verbs: readonly string[]): Command {
  const lines = Array.from({ length: Math.ceil(verbs.length / 8) }, (_, row) =>
    verbs.slice(row * 8, row * 8 + 8).join(' '),
  );
  return {
    verb: 'HELP',
    needs: 'nothing',
    run: immediate(() => ({ code: 214, text: 'Commands:', inner: lines })),
  };
}
