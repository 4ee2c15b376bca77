import { type Args, type SentenceTable, textArg } from './phrases.ts';

/** What is to be said of destinations and of files on their way there. Codes `send.*` come from the room send and from the station. */
export const sendSentences: SentenceTable = {
  'send.host-key-unknown': (args) =>
    `${textArg(args, 'host')} shows the key ${textArg(args, 'shown')}, and nobody has said yet that it is the right one; nothing was sent and no log-in told. Compare it with what whoever keeps the server says (ssh-keygen -l prints it there), then: setside destination test ${nameOf(args)} --trust ${textArg(args, 'shown')}.`,
  'send.host-key-other': (args) =>
    `${textArg(args, 'host')} shows another key than the one that is known: ${textArg(args, 'shown')}, not ${textArg(args, 'known')}. Either the server was set up anew, or something else answers in its place; nothing was sent and no log-in told. Ask whoever keeps the server, and only then trust the new one.`,
  'send.log-in-refused': (args) =>
    `${textArg(args, 'host')} does not take the log-in. Check user and secret, and name the secret anew with setside destination add.`,
  'send.bad-key': () =>
    'The private key cannot be read. It has to be the text of an OpenSSH or PEM file without a passphrase.',
  'send.no-secret': () =>
    'There is no secret for this destination. Give it one with setside destination add.',
  'send.secret-failed': (args) =>
    `The secret could not be had (${textArg(args, 'why')}). Run by hand what should print it, or check that the variable is set where the station is started.`,
  'send.no-common-way': (args) =>
    `${textArg(args, 'host')} speaks only kinds of encryption that are not safe any more. It needs a newer SSH server.`,
  'send.certificate': (args) =>
    `The certificate of ${textArg(args, 'host')} is not known (${textArg(args, 'why')}). Where the service has an authority of its own, start the station with NODE_EXTRA_CA_CERTS and its file.`,
  'send.no-answer': (args) =>
    `${textArg(args, 'host')} does not answer (${textArg(args, 'why')}). Check the address, the network, and whether the server runs.`,
  'send.line-cut': (args) =>
    `The line to ${textArg(args, 'host')} was cut. What is there stays there, and is gone on with.`,
  'send.no-folder': (args) =>
    `The folder ${textArg(args, 'folder')} is not there. Plug the disk in or mend the path; Setside makes only the folders below it.`,
  'send.no-folder-there': (args) =>
    `The folder ${textArg(args, 'folder')} is not there on ${textArg(args, 'host')}. Make it there, or mend the path of the destination; Setside makes only the folders below it.`,
  'send.not-allowed': (args) =>
    `Writing or looking there is not allowed (${textArg(args, 'why')}). Check the log-in and its rights at the destination.`,
  'send.disk-full': () => 'There is no room left at the destination. Make some, and let the delivery go on.',
  'send.no-bucket': () => 'There is no bucket of this name. Check name, region and address.',
  'send.other-region': () => 'The bucket lies in another region. Check the region of the destination.',
  'send.clock-off': () =>
    'The clock of this computer is so far off that the service takes no request of it. Set it right.',
  'send.refused': (args) => `The destination refused ${textArg(args, 'name')} (${textArg(args, 'why')}).`,
  'send.name-taken': (args) =>
    `Another file called ${textArg(args, 'name')} lies there, with other bytes. It was left alone and ours not sent: move it away, or deliver again under other names.`,
  'send.other-bytes': (args) =>
    `What was read back of ${textArg(args, 'name')} is not what was sent. It is sent again.`,
  'send.file-gone': (args) =>
    `${textArg(args, 'name')} is not in the folder of the delivery any more (${textArg(args, 'why')}). Deliver again.`,
  'send.file-changed': (args) =>
    `${textArg(args, 'name')} was changed after it was made, and was not sent. Deliver again.`,
  'send.size-only': () =>
    'The server lets nobody read, so only the size of what lies there can be compared, not its bytes.',
  'send.try-stays': (args) =>
    `The small file ${textArg(args, 'name')} could not be taken away again: the log-in may not delete. It may be deleted by hand.`,
  'send.in-clear': () =>
    'Nothing is encrypted on the way (http): everybody on the network can see the pictures. Use an https address.',
  'send.no-destination': (args) =>
    `There is no destination called ${textArg(args, 'name')} any more. Make it again, and let the delivery go on; or end it.`,
};

/** The destination's, where whoever tells it knows. */
function nameOf(args: Args): string {
  return args.destination === undefined ? 'NAME' : textArg(args, 'destination');
}
