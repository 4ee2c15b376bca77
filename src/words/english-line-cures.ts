import { cameraPhrase, portsPhrase } from './line-phrases.ts';
import { type SentenceTable, textArg } from './phrases.ts';

/** What mends what the line check found: codes `line-cure.*`. */
export const lineCureSentences: SentenceTable = {
  'line-cure.enter-address': (args) =>
    `Enter ${textArg(args, 'local')} as the server’s address on ${cameraPhrase(args)}.`,
  'line-cure.reserve': (args) =>
    textArg(args, 'gateway') === ''
      ? `Reserve ${textArg(args, 'address')} for the hardware address ${textArg(args, 'hardware')} where this network’s addresses are dealt out, so that it stays.`
      : `Reserve ${textArg(args, 'address')} for the hardware address ${textArg(args, 'hardware')} at the router, http://${hostPhrase(textArg(args, 'gateway'))}/, so that it stays.`,
  'line-cure.fix-address': (args) =>
    `Or give this computer ${textArg(args, 'address')} as a fixed address, if that one is not dealt out to another device.`,
  'line-cure.fix-any': () =>
    'Or give this computer a fixed address outside what the router deals out, and enter that one on the cameras.',
  'line-cure.join-network': () =>
    'Join the cameras’ network, by cable or Wi-Fi; or let this computer deal out a network of its own.',
  'line-cure.start-dhcp': () =>
    'Look whether the router is on and the cable in; or give computer and camera fixed addresses of one network.',
  'line-cure.bind': (args) =>
    `Give this computer a private address; or start with --bind ${textArg(args, 'address')}, and whoever reaches that address reaches the doors too.`,
  'line-cure.end-program': (args) =>
    args.holder === undefined
      ? `Find out which program it is: the system tells an administrator alone. End it and start the station again, or start the station with another port: ${textArg(args, 'option')}.`
      : `End ${textArg(args, 'holder')} and start the station again, or start the station with another port: ${textArg(args, 'option')}.`,
  'line-cure.enter-port': (args) => `Enter port ${textArg(args, 'port')} on each camera.`,
  'line-cure.look-at-door': (args) =>
    `Start the station again, and look at what it says of the ${textArg(args, 'door')} door.`,
  'line-cure.open-firewall': (args) =>
    `Open ${portsPhrase(args)} in the firewall for ${textArg(args, 'sources')}.${lastingPhrase(textArg(args, 'kind'))}`,
  'line-cure.open-between': (args) =>
    `Open the ports ${textArg(args, 'ports')} in the router or access point between${
      args.sftp === undefined ? '' : `; or use SFTP, which needs port ${textArg(args, 'sftp')} alone`
    }.`,
  'line-cure.read-firewall': () =>
    'Run setside line as an administrator on the station’s computer: it reads the firewall and says what it does. Or open the ports as the lines say; they do no harm where all is open.',
  'line-cure.wider-range': () => 'Start the station with another range: --passive FROM-TO.',
  'line-cure.same-network': (args) =>
    `Bring ${cameraPhrase(args)} into the station’s own network, ${textArg(args, 'network')}; or use SFTP, which needs one port alone.`,
  'line-cure.passive-mode': (args) => `Set ${cameraPhrase(args)} to passive mode.`,
  'line-cure.check-camera': (args) =>
    `Look whether the camera is on and in the network ${textArg(args, 'network')}, and has the address ${textArg(args, 'local')} and port ${textArg(args, 'port')} entered.`,
  'line-cure.let-devices-meet': () =>
    'Use a network that lets its devices meet: no guest network, and no setting at the access point that keeps clients apart.',
  'line-cure.wake-camera': (args) => `Wake ${cameraPhrase(args)} and look at its network.`,
  'line-cure.tunnel-off': (args) =>
    `Switch the tunnel off while shooting, or leave ${textArg(args, 'network')} out of it.`,
  'line-cure.one-each': (args) =>
    `Give one of the two another address; leave ${textArg(args, 'address')} out of what the router deals out.`,
  'line-cure.enter-user': (args) =>
    `Enter the user as it stands on the camera sheet${args.users === undefined ? '' : `: ${textArg(args, 'users')}`}.`,
  'line-cure.enter-password': (args) =>
    `Enter the password of ${cameraPhrase(args)} anew, letter by letter from the camera sheet; or give it a new one on the Line page.`,
  'line-cure.allow-address': (args) =>
    `Allow ${textArg(args, 'address')}, or the camera’s hardware address, which stays the same, on the Line page.`,
  'line-cure.allow-way': (args) =>
    `Allow ${textArg(args, 'door')} for ${cameraPhrase(args)} on the Line page, or change the camera.`,
  'line-cure.let-in-again': (args) => `Let ${cameraPhrase(args)} in again on the Line page.`,
  'line-cure.wait-then-enter': () =>
    'Switch the camera’s transfer off, enter user and password from the camera sheet, wait a minute, and switch it on.',
  'line-cure.plain-or-sftp': () =>
    'Use SFTP if the camera has it, else plain FTP on a network of your own; or look for new firmware of the camera.',
  'line-cure.import-root': () =>
    'Save the root certificate from the Line page on the camera’s card, and import it on the camera.',
  'line-cure.set-clock': () => 'Set the date and time of the camera, with its zone.',
  'line-cure.set-implicit': () => 'Set the camera to FTPS, implicit; or enter the port for FTP.',
  'line-cure.protect-data': () => 'Set the camera to encrypt files too, or use SFTP.',
  'line-cure.enter-folder': () => 'Enter / as the folder on the camera, or nothing at all.',
  'line-cure.make-room': () => 'Make room on the disk, or start with --home on a larger one.',
  'line-cure.faster-disk': () => 'Put the station’s folder on a faster disk, with --home.',
  'line-cure.come-closer': () =>
    'Bring the camera and the access point closer, choose another channel or 5 GHz, or use a cable.',
  'line-cure.stay-awake': () =>
    'Switch the camera’s power saving off or its time up while shooting, and look at its battery.',
};

/** Rules of these are gone with the next start, unless somebody writes them into the system's file. */
function lastingPhrase(kind: string): string {
  return kind === 'nftables' || kind === 'iptables' ? ' This lasts until the computer is started anew.' : '';
}

/** An IPv6 address stands in brackets in a URL (RFC 3986 section 3.2.2). */
function hostPhrase(address: string): string {
  return address.includes(':') ? `[${address}]` : address;
}
