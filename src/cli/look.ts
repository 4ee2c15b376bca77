import { Command, InvalidArgumentError, Option } from 'commander';
import { type DocumentForm, documentForms, type TableNodes } from '../look/index.ts';
import { addKeptLooks } from './kept-looks.ts';
import { checkFiles, compileFiles, convertFiles, type LookFlags, type LookWriteFlags } from './look-acts.ts';

/** `setside look`: looks as files, and those that a running station keeps. What a file is, its content decides. */
export function lookCommand(leave: (code: number) => void): Command {
  const command = new Command('look').description(
    'Checks, compiles and converts looks, CLF documents and ASC CDL corrections; lists, saves and uses the looks of a running station.',
  );
  command
    .command('check')
    .description('Says what each file is and whether it can be used; the exit code is 1 where one cannot.')
    .argument('<file...>', 'looks (JSON), CLF documents, ASC CDL (.cc, .ccc, .cdl)')
    .option('--json', 'one JSON line for each file', false)
    .action(async (files: string[], flags: LookFlags) => leave(await checkFiles(files, flags)));
  command
    .command('compile')
    .description('Makes the table of looks and says how far it is from their formula.')
    .argument('<file...>', 'looks, or ASC CDL with one correction')
    .addOption(new Option('--nodes <number>', 'along one edge of the table').argParser(nodes).default(65))
    .option('--id <id>', 'which of several corrections')
    .option('--number <number>', 'which of several corrections, counted from 1', number)
    .option('--out <dir>', 'write each as NAME.clf there; without it nothing is written')
    .option('--replace', 'replace what lies under the name of a result', false)
    .option('--json', 'one JSON line for each file', false)
    .action(async (files: string[], flags: LookWriteFlags & { nodes: TableNodes }) =>
      leave(await compileFiles(files, flags)),
    );
  command
    .command('convert')
    .description('Writes looks, CLF documents and ASC CDL corrections in another form.')
    .argument('<file...>', 'what each is, its content decides')
    .addOption(new Option('--to <form>', 'the form').choices(documentForms).makeOptionMandatory())
    .option('--id <id>', 'which of several corrections')
    .option('--number <number>', 'which of several corrections, counted from 1', number)
    .option('--out <dir>', 'folder for the results', '.')
    .option('--replace', 'replace what lies under the name of a result', false)
    .option('--json', 'one JSON line for each file', false)
    .action(async (files: string[], flags: LookWriteFlags & { to: DocumentForm }) =>
      leave(await convertFiles(files, flags)),
    );
  addKeptLooks(command, leave);
  return command;
}

function nodes(text: string): TableNodes {
  const found = ([33, 65, 129] as const).find((count) => String(count) === text);
  if (found === undefined) throw new InvalidArgumentError('expected 33, 65 or 129');
  return found;
}

function number(text: string): number {
  if (/^[1-9]\d{0,5}$/.test(text)) return Number(text);
  throw new InvalidArgumentError('expected a whole number from 1 on');
}
