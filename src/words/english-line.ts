import { numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';

/** What happened on the line, for a camera's log. Codes `line.*` come from receive. */
export const lineSentences: SentenceTable = {
  'line.connected': (args) => `A client at ${textArg(args, 'address')} reached the station.`,
  'line.logged-in': (args) => `${textArg(args, 'user')} logged in from ${textArg(args, 'address')}.`,
  'line.wrong-login': (args) =>
    `A client at ${textArg(args, 'address')} gave user "${textArg(args, 'user')}" and a wrong user or password.`,
  'line.too-many-logins': (args) =>
    `The client at ${textArg(args, 'address')} gave a wrong user or password too often and was sent away.`,
  'line.too-many-connections': (args) =>
    `Too many connections from ${textArg(args, 'address')}: one was refused.`,
  'line.disconnected': (args) => `The client at ${textArg(args, 'address')} left.`,
  'line.upload-started': (args) => `${textArg(args, 'name')} started to arrive.`,
  'line.upload-resumed': (args) =>
    `${textArg(args, 'name')} goes on after ${sizePhrase(numberArg(args, 'offsetBytes'))}.`,
  'line.upload-kept': (args) => `${textArg(args, 'name')} is kept, ${sizePhrase(numberArg(args, 'bytes'))}.`,
  'line.upload-broken-off': (args) =>
    `${textArg(args, 'name')} broke off after ${sizePhrase(numberArg(args, 'bytes'))} (${textArg(args, 'why')}).`,
  'line.no-data-connection': (args) =>
    `The client at ${textArg(args, 'address')} logged in but its data connection never came: the passive ports are probably shut by a firewall.`,
  'line.foreign-data-connection': (args) =>
    `A data connection from ${textArg(args, 'address')} was turned away: it was not the client's own address.`,
  'line.idle': (args) =>
    `The client at ${textArg(args, 'address')} said nothing for too long and was closed.`,
  'line.refused-command': (args) => `${textArg(args, 'verb')} was refused: ${textArg(args, 'why')}.`,
  'line.disk-full': () => 'The disk is full: new frames are refused until there is room.',
  'line.port-in-use': (args) =>
    `Port ${textArg(args, 'port')} is in use by another program, so the ${textArg(args, 'door')} door is shut. Close that program or choose another port.`,
  'line.port-forbidden': (args) =>
    `The system does not let an ordinary user open port ${textArg(args, 'port')}; ${textArg(args, 'door')} uses ${textArg(args, 'instead')} instead.`,
};
