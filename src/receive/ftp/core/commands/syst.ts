import { type Command, immediate } from '../command.ts';
import { reply } from '../reply.ts';

/** RFC 959 section 4.1.3. Clients that read LIST go by this name, whatever the station runs on. */
export const syst: Command = {
  verb: 'SYST',
  needs: 'nothing',
  run: immediate(() => reply(215, 'UNIX Type: L8')),
};
