import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';

export const noop: Command = {
  verb: 'NOOP',
  needs: 'nothing',
  run: immediate(() => reply(200, 'Still here.')),
};
