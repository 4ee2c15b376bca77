import { type Args, isSeveral, numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';

/** What happened on the line, for a camera's log. Codes `line.*` come from receive. */
export const lineSentences: SentenceTable = {
  'line.connected': (args) => `A client at ${textArg(args, 'address')} reached the station.`,
  'line.ftp-in-clear': () => 'Plain FTP sends the password in clear: use it on a network of your own.',
  'line.logged-in': (args) => `${textArg(args, 'user')} logged in from ${textArg(args, 'address')}.`,
  'line.wrong-login': (args) =>
    `A client at ${textArg(args, 'address')} gave user “${textArg(args, 'user')}” and was not let in: user or password wrong, or not allowed from there.`,
  'line.not-allowed-from': (args) =>
    `${textArg(args, 'camera')} gave its right log-in but came from ${textArg(args, 'address')}, which is not among its allowed addresses. If the router dealt out a new address, allow that one, or the camera’s hardware address.`,
  'line.wrong-door': (args) =>
    `${textArg(args, 'camera')} gave its right log-in by ${textArg(args, 'door')}, a way it may not use. Change the camera, or allow this way.`,
  'line.camera-ended': (args) =>
    `${textArg(args, 'camera')} gave its right log-in from ${textArg(args, 'address')}, but has been ended here. Let it in again, or enter another camera’s log-in on it.`,
  'line.too-many-logins': (args) =>
    `A client at ${textArg(args, 'address')} gave a wrong user or password too often${lastUserPhrase(textArg(args, 'user'))} and was sent away.`,
  'line.too-many-keys': (args) =>
    `A client at ${textArg(args, 'address')} offered too many keys that are not known here${lastUserPhrase(textArg(args, 'user'))} and was sent away.`,
  'line.dismissed': (args) =>
    `${textArg(args, 'camera')} was sent off: ${dismissPhrase(textArg(args, 'why'))}.`,
  'line.public-address': (args) =>
    `A client at ${textArg(args, 'address')} came in by ${textArg(args, 'local')}, which is no address of a private network, and was shut out. Start with --bind to serve there.`,
  'line.more-refused': (args) => {
    const count = numberArg(args, 'count');
    return count === 1 ? 'One more client was refused.' : `${count} more clients were refused.`;
  },
  'line.too-many-connections': (args) =>
    `Too many connections from ${textArg(args, 'address')}: one was refused.`,
  'line.disconnected': (args) => `The client at ${textArg(args, 'address')} left.`,
  'line.upload-started': (args) => `${textArg(args, 'name')} started to arrive.`,
  'line.upload-resumed': (args) =>
    `${textArg(args, 'name')} goes on after ${sizePhrase(numberArg(args, 'offsetBytes'))}.`,
  'line.upload-kept': (args) => `${textArg(args, 'name')} is kept, ${sizePhrase(numberArg(args, 'bytes'))}.`,
  'line.upload-kept-damaged': (args) =>
    textArg(args, 'via') === 'folder'
      ? `${textArg(args, 'name')} has lain in its folder cut short and is kept as it is, ${sizePhrase(numberArg(args, 'bytes'))}. Check the card, or what wrote it.`
      : `${textArg(args, 'name')} came cut short a second time and is kept as it is, ${sizePhrase(numberArg(args, 'bytes'))}. Check the card.`,
  'line.upload-began-again': (args) =>
    `${textArg(args, 'name')} was to go on after ${sizePhrase(numberArg(args, 'offsetBytes'))} and came from its beginning once more, so that what is kept is no picture. Send it again from the start, without resuming.`,
  'line.upload-broken-off': (args) =>
    textArg(args, 'via') === 'folder'
      ? `${textArg(args, 'name')} was not taken whole, ${sizePhrase(numberArg(args, 'bytes'))} of it came: ${folderBreakPhrase(textArg(args, 'why'))}.${timesPhrase(args, 'Look at the card and its reader.')}`
      : `${textArg(args, 'name')} broke off after ${sizePhrase(numberArg(args, 'bytes'))}: ${breakPhrase(textArg(args, 'why'))}.${timesPhrase(args, 'Look at the line between camera and station, or take the file from the card.')}`,
  'line.taken-out': (args) => {
    const count = numberArg(args, 'count');
    return count > 1
      ? `${count} more files were taken out of their folder by the camera, ${textArg(args, 'name')} last: what came of them stays kept here.`
      : `${textArg(args, 'name')} was taken out of its folder by the camera: what came of it stays kept here.`;
  },
  'line.renamed': (args) => {
    const count = numberArg(args, 'count');
    const change = `${textArg(args, 'name')} to ${textArg(args, 'to')}`;
    return count > 1
      ? `${count} more were renamed by the camera, ${change} last: what is kept stays as it is.`
      : `${textArg(args, 'name')} was renamed to ${textArg(args, 'to')} by the camera: what is kept stays as it is.`;
  },
  'line.upload-out-of-order': (args) =>
    `${textArg(args, 'name')} did not come from start to end: ${refusalPhrase(textArg(args, 'why'))}. It has to be sent again.`,
  'line.not-sftp': (args) =>
    `The client at ${textArg(args, 'address')} does not speak SFTP and was sent away.`,
  'line.watch-begun': (args) => `${textArg(args, 'folder')} is watched.`,
  'line.watch-ended': (args) => `${textArg(args, 'folder')} is not watched any more.`,
  'line.watch-dismissed': (args) =>
    `${textArg(args, 'folder')} is not watched while ${textArg(args, 'camera')} is ended: let the camera in again, and its files are taken.`,
  'line.watch-away': (args) =>
    `${textArg(args, 'folder')} is not there: the card is out, or the cable. It is watched again as soon as it is back.`,
  'line.watch-unreadable': (args) =>
    `${textArg(args, 'name')} cannot be read (${textArg(args, 'why')}): it is tried again later.`,
  'line.watch-name': (args) =>
    `${textArg(args, 'name')} is passed over: ${refusalPhrase(textArg(args, 'why'))}.`,
  'line.watch-link': (args) => `${textArg(args, 'name')} is passed over: it is a link to another place.`,
  'line.watch-not-taken': (args) => {
    const count = numberArg(args, 'count');
    const others = count > 1 ? ` and ${count - 1} more` : '';
    const isOne = count === 1 && !isSeveral(args);
    const which = isOne ? 'One file' : `${isSeveral(args) ? textArg(args, 'count') : count} files`;
    const [was, them] = isOne
      ? ['was', 'it a plain name, or copy it']
      : ['were', 'them plain names, or copy them'];
    return `${which} in ${textArg(args, 'folder')} ${was} not taken: ${textArg(args, 'name')}${others}. Keep the card; give ${them} by hand.`;
  },
  'line.watch-none-missed': (args) => `Nothing in ${textArg(args, 'folder')} is passed over any more.`,
  'line.watch-trouble': (args) => `The folder cannot be watched fully (${textArg(args, 'why')}).`,
  'line.no-data-connection': (args) =>
    `The client at ${textArg(args, 'address')} logged in but its data connection never came: the passive ports are probably shut by a firewall.`,
  'line.cannot-dial': (args) =>
    `The client at ${textArg(args, 'address')} asked for active mode, but its data port cannot be reached: set the camera to passive.`,
  'line.tls-failed': (args) =>
    `The client at ${textArg(args, 'address')} could not begin encryption: ${tlsPhrase(textArg(args, 'why'))}.`,
  'line.data-not-secured': (args) =>
    `The client at ${textArg(args, 'address')} did not bring its data connection under TLS, so nothing was taken.`,
  'line.data-not-resumed': (args) =>
    `The client at ${textArg(args, 'address')} did not resume its TLS session for the data, as this station is set to ask for. If the camera cannot, let it go without.`,
  'line.foreign-data-connection': (args) =>
    `A data connection from ${textArg(args, 'address')} was turned away: it was not the client’s own address.`,
  'line.camera-silent': (args) =>
    isSeveral(args)
      ? `${textArg(args, 'camera')} have been silent for ${textArg(args, 'minutes')} min: look at their batteries, their Wi-Fi, and whether they have gone to sleep.`
      : `${textArg(args, 'camera')} has been silent for ${numberArg(args, 'minutes')} min: look at its battery, its Wi-Fi, and whether it has gone to sleep.`,
  'line.idle': (args) =>
    `The client at ${textArg(args, 'address')} said nothing for too long and was closed.`,
  'line.refused-command': (args) =>
    `${textArg(args, 'verb')}${args.name === undefined ? '' : ` of ${textArg(args, 'name')}`} was refused with ${textArg(args, 'reply')}: ${refusalPhrase(textArg(args, 'why'))}.`,
  'line.disk-failed': (args) => `The disk failed while ${textArg(args, 'name')} arrived: it is not kept.`,
  'line.fault': (args) =>
    `The station made a mistake of its own with the client at ${textArg(args, 'address')} and closed the connection.`,
  'line.disk-full': (args) => `The disk is full: ${diskFullPhrase(args)}`,
  'line.loopback-only': () =>
    'Cameras cannot reach this station: its doors are open to programs on this computer only. Start without --bind, or with an address of the cameras’ network.',
  'line.no-private-address': (args) =>
    `Cameras are shut out: they are served on private addresses only, and this computer has none, only ${textArg(args, 'address')}. Give it an address of the cameras’ network, or start with --bind ${textArg(args, 'address')}: then whoever reaches that address, perhaps from the internet, reaches the doors too.`,
  'line.port-in-use': (args) =>
    isSeveral(args)
      ? `Ports ${textArg(args, 'port')} are in use by other programs, so the ${textArg(args, 'door')} doors are shut. Close those programs or choose other ports.`
      : `Port ${textArg(args, 'port')} is in use by another program, so the ${textArg(args, 'door')} door is shut. Close that program or choose another port.`,
  'line.port-taken': (args) =>
    `Port ${textArg(args, 'port')} is in use by another program; ${textArg(args, 'door')} uses ${textArg(args, 'instead')} instead.`,
  'line.port-forbidden': (args) =>
    `The system does not let an ordinary user open port ${textArg(args, 'port')}; ${textArg(args, 'door')} uses ${textArg(args, 'instead')} instead.`,
};

/** That it is not the first time, and what to look at then; nothing the first times. */
function timesPhrase(args: Args, cure: string): string {
  const times = numberArg(args, 'times');
  return times > 0 ? ` It has broken off ${times} times now. ${cure}` : '';
}

/** What that stopped: a file in its middle, one that had not begun, or nothing that is known. */
function diskFullPhrase(args: Args): string {
  const refused = 'new frames are refused until there is room.';
  if (args.name === undefined) return refused;
  const name = textArg(args, 'name');
  if (args.bytes === undefined) return `${name} was not taken, and ${refused}`;
  const again = textArg(args, 'via') === 'folder' ? 'it is taken again by itself' : 'send it again';
  return `it stopped ${name} after ${sizePhrase(numberArg(args, 'bytes'))}, which stay here. Make room, and ${again}; until then new frames are refused.`;
}

/** How an upload ended early, after the ends an arrival can have. */
function breakPhrase(why: string): string {
  switch (why) {
    case 'closed':
      return 'the client ended it in order, but the file has bytes missing';
    case 'reset':
      return 'the data connection broke';
    case 'unclosed':
      return 'the encrypted connection ended without the mark that it was the camera that ended it';
    case 'control-lost':
      return 'the client left';
    case 'aborted':
      return 'the client gave it up';
    case 'stalled':
      return 'nothing came for too long';
    case 'stopping':
      return 'the station was stopped';
    case 'died':
      return 'the station ended all at once';
    case 'dismissed':
      return 'the camera was sent off';
    default:
      return why;
  }
}

/** The same for a file that is copied out of a watched folder: there is no client. */
function folderBreakPhrase(why: string): string {
  switch (why) {
    case 'closed':
      return 'the file in the folder ends there, though bytes are missing';
    case 'reset':
      return 'its folder went away or could not be read';
    case 'aborted':
      return 'it was changed or taken away meanwhile, and is looked at again';
    case 'dismissed':
      return 'its camera was ended here';
    default:
      return breakPhrase(why);
  }
}

/** Why a camera that was in may not stay. */
function dismissPhrase(why: string): string {
  switch (why) {
    case 'new-password':
      return 'it has a new password here, to be entered on it';
    case 'key-dropped':
      return 'one of its keys lets it in no more';
    default:
      return 'it was ended here';
  }
}

function lastUserPhrase(user: string): string {
  return user === '' ? '' : `, last as “${user}”,`;
}

/** Why a TLS handshake came to nothing, and what helps. */
function tlsPhrase(why: string): string {
  switch (why) {
    case 'slow':
      return 'it took too long';
    case 'left':
      return 'it left in the middle. It may not trust the station: import the root certificate of the camera sheet';
    case 'old-version':
      return 'it knows only versions of TLS that are forbidden today. Use plain FTP on a network of your own';
    case 'no-cipher':
      return 'it knows none of the ciphers of this station';
    case 'not-tls':
      return 'it spoke in clear at the port for FTPS. Set the camera to FTPS, implicit, or enter the port for FTP';
    case 'unknown-authority':
      return 'it does not know who vouches for the station: import the root certificate of the camera sheet';
    case 'bad-certificate':
      return 'it refused the certificate of the station: look at the date and time of the camera, and import the root certificate of the camera sheet';
    default:
      return 'its TLS and that of the station do not agree';
  }
}

/** Why a command was refused, after the codes of a camera's folder and of a name. */
function refusalPhrase(why: string): string {
  switch (why) {
    case 'not-found':
      return 'there is no such file or folder';
    case 'no-folder':
      return 'there is no such folder. Let the camera make it, or enter / as its folder';
    case 'not-a-folder':
      return 'that is a file';
    case 'not-a-file':
      return 'that is a folder';
    case 'exists':
      return 'that name is taken';
    case 'offset-beyond-end':
      return 'fewer bytes are here than the camera thinks';
    case 'disk-full':
      return 'the disk is full';
    case 'disk-failed':
      return 'the disk failed';
    case 'busy':
      return 'the same file is still arriving from another connection';
    case 'too-many':
      return 'too many files are arriving at once';
    case 'control-character':
      return 'the name holds control characters';
    case 'name-too-long':
      return 'the name is too long';
    case 'too-deep':
      return 'the path is too deep';
    case 'no-reading':
      return 'files are not handed back';
    case 'no-links':
      return 'there are no links here';
    case 'no-truncating':
      return 'a file is neither cut nor stretched';
    case 'rewritten':
    case 'overlapping':
      return 'the client changed bytes that had come';
    case 'too-far':
      return 'the client wrote too far ahead';
    case 'cut-back':
      return 'the client was interrupted';
    case 'gap':
      return 'bytes are missing in the middle';
    case 'not-empty':
      return 'that folder is not empty';
    case 'not-utf-8':
      return 'its name is not UTF-8';
    case 'no-name':
      return 'the name is missing';
    default:
      return why;
  }
}
