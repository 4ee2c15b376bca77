import { endWithReader } from './reader-gone.ts';
import { runCommand } from './run-command.ts';

const words = process.argv.slice(2);
endWithReader(words[0] === 'station');
process.exitCode = await runCommand(words);
