import type { Command } from 'commander';

/** What is said of a job on a command line; an option that is left out says nothing. */
export interface JobWordFlags {
  readonly title?: string;
  readonly client?: string;
  readonly from?: string;
  readonly to?: string;
  readonly place?: string;
  readonly notes?: string;
}

export function withJobWords(command: Command): Command {
  return command
    .option('--title <text>', 'its title')
    .option('--client <text>', 'its client')
    .option('--from <day>', 'first day, written 2026-10-01; "" for none')
    .option('--to <day>', 'last day')
    .option('--place <text>', 'where it is shot')
    .option('--notes <text>', 'what everybody on the set should know');
}

/** The words that were given, as the station's calls take them: a day that is empty is none. */
export function jobWordsIn(flags: JobWordFlags): Readonly<Record<string, string | null>> {
  const { title, client, from, to, place, notes } = flags;
  const day = (text: string | undefined): string | null | undefined => (text === '' ? null : text);
  const words = { title, client, from: day(from), to: day(to), place, notes };
  return Object.fromEntries(
    Object.entries(words).flatMap(([name, said]) => (said === undefined ? [] : [[name, said]])),
  );
}
