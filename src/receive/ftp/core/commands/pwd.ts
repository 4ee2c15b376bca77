import { type Command, immediate } from '../command.ts';
import { quotePath, reply } from '../reply.ts';

/** RFC 959 section 4.1.3 and appendix II. */
export const pwd: Command = {
  verb: 'PWD',
  alias: 'XPWD',
  needs: 'login',
  run: immediate(({ state }) => reply(257, `${quotePath(state.cwd)} is the current folder.`)),
};
