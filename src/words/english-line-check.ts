import { cameraPhrase, portsPhrase } from './line-phrases.ts';
import { type Args, numberArg, type SentenceTable, sizePhrase, spanPhrase, textArg } from './phrases.ts';

/** What the line check found: `line-check.*` what is wrong, `line-seen.*` what says so. */
export const lineCheckSentences: SentenceTable = {
  'line-check.address-changed': (args) =>
    `The station has another address than the one entered on ${cameraPhrase(args)}: ${textArg(args, 'address')} is gone, it is ${orUnknown(args, 'local')} now.`,
  'line-check.address-dealt-out': (args) =>
    `The station’s address ${textArg(args, 'address')} was dealt out to it, and may be another tomorrow.`,
  'line-check.no-network': () => 'The station’s computer is in no network that a camera could be in.',
  'line-check.no-dhcp': (args) =>
    `Nobody dealt out an address on ${textArg(args, 'interface')}: the computer gave itself ${textArg(args, 'address')}.`,
  'line-check.only-public': (args) =>
    `The station’s computer has public addresses only, such as ${textArg(args, 'address')}, and cameras are served on private ones.`,
  'line-check.door-shut': (args) => `The ${textArg(args, 'door')} door is shut.`,
  'line-check.port-taken': (args) =>
    `Another program has port ${textArg(args, 'port')}, so the ${textArg(args, 'door')} door is shut.`,
  'line-check.other-port': (args) =>
    `The ${textArg(args, 'door')} door is at port ${textArg(args, 'port')}, not at the usual ${textArg(args, 'wanted')}.`,
  'line-check.firewall-shut': (args) =>
    `The firewall of the station’s computer shuts ${portsPhrase(args)} (${textArg(args, 'doors')}): no camera comes in there.`,
  'line-check.links-shut': (args) =>
    `The firewall of the station’s computer shuts port ${textArg(args, 'port')}, by which phones and other devices with a link come in: they find nothing.`,
  'line-check.firewall-unread': () =>
    'The firewall of the station’s computer could not be read, so it may shut the cameras out.',
  'line-check.passive-shut': (args) =>
    `The passive ports ${textArg(args, 'ports')} are shut by the firewall of the station’s computer: ${whose(args)} can log in, and no file gets through.`,
  'line-check.passive-shut-between': (args) =>
    `${Camera(args)} logs in, but something between it and the station shuts the passive ports ${textArg(args, 'ports')}.`,
  'line-check.passive-taken': (args) =>
    `Other programs have ${numberArg(args, 'count')} of the passive ports ${textArg(args, 'ports')}, and too few are left.`,
  'line-check.address-translated': (args) =>
    `${Camera(args)} is behind a router that translates addresses: it logs in, but the station’s address for the data means nothing there.`,
  'line-check.active-behind-wall': (args) =>
    `${Camera(args)} is set to active mode, and the station cannot dial back to it.`,
  'line-check.nothing-came': (args) =>
    args.camera === undefined
      ? 'No camera has reached the station since it started.'
      : `${Camera(args)} has not reached the station since it started.`,
  'line-check.kept-apart': (args) =>
    `The network may keep its devices apart, as networks for guests do: nobody but the router answers on ${textArg(args, 'interface')}.`,
  'line-check.not-there': (args) =>
    `${Camera(args)} is not at its last address ${textArg(args, 'address')} any more: it is off, asleep, or in another network.`,
  'line-check.other-network': (args) =>
    args.camera === undefined
      ? `The station is in ${numberArg(args, 'count')} networks, and a camera reaches only the address of its own.`
      : `The station is in ${numberArg(args, 'count')} networks, and ${cameraPhrase(args)} is in that of ${textArg(args, 'local')}.`,
  'line-check.tunnel-took-route': (args) =>
    `A tunnel (${textArg(args, 'interface')}), such as a VPN, has taken the way to ${cameraPhrase(args)}: the station’s answers go into it.`,
  'line-check.address-twice': (args) => `Two devices use the address ${textArg(args, 'address')}.`,
  'line-check.wrong-user': (args) =>
    `A client at ${textArg(args, 'address')} gives a user that no camera has${
      args.user === undefined ? '' : `: “${textArg(args, 'user')}”`
    }.`,
  'line-check.wrong-password': (args) => `${Camera(args)} gives the right user, but a wrong password.`,
  'line-check.address-not-allowed': (args) =>
    `${Camera(args)} gives its right log-in, but comes from ${textArg(args, 'address')}, where it may not come from.`,
  'line-check.way-not-allowed': (args) =>
    `${Camera(args)} gives its right log-in, but comes by ${textArg(args, 'door')}, a way it may not use.`,
  'line-check.camera-ended': (args) => `${Camera(args)} gives its right log-in, but has been ended here.`,
  'line-check.too-many-tries': (args) =>
    `A client at ${textArg(args, 'address')} tries wrong log-ins so often that it is sent away.`,
  'line-check.tls-version': (args) =>
    `The camera at ${textArg(args, 'address')} knows only versions of TLS that are forbidden today.`,
  'line-check.tls-untrusted': (args) =>
    `The camera at ${textArg(args, 'address')} does not trust the station: the root certificate is not imported on it.`,
  'line-check.tls-clock': (args) =>
    `The camera at ${textArg(args, 'address')} refuses the station’s certificate: its clock is probably wrong.`,
  'line-check.tls-not-spoken': (args) =>
    `The camera at ${textArg(args, 'address')} speaks in clear at the port for implicit FTPS.`,
  'line-check.tls-failed': (args) =>
    `The camera at ${textArg(args, 'address')} and the station do not agree on encryption.`,
  'line-check.tls-data': (args) => `${Camera(args)} logs in encrypted, but does not send its files so.`,
  'line-check.folder-refused': (args) =>
    `${Camera(args)} asks for a folder that it cannot have: ${textArg(args, 'name')}.`,
  'line-check.disk-full': () => 'The station’s disk is full, and new frames are refused.',
  'line-check.disk-slow': (args) =>
    `The station’s disk takes ${sizePhrase(numberArg(args, 'bytesPerSecond'))} a second only, less than cameras bring.`,
  'line-check.weak-line': (args) =>
    `Uploads of ${cameraPhrase(args)} begin and break off: the line between it and the station is weak.`,
  'line-check.goes-to-sleep': (args) =>
    `${Camera(args)} falls silent in the middle and is gone: it saves power, or its battery is empty.`,

  'line-seen.address-gone': (args) =>
    `${Camera(args)} last came to ${textArg(args, 'address')}, which this computer does not have now.`,
  'line-seen.lease': (args) =>
    args.ms === undefined
      ? `${textArg(args, 'address')} on ${textArg(args, 'interface')} was dealt out by DHCP.`
      : `${textArg(args, 'address')} on ${textArg(args, 'interface')} was dealt out for another ${spanPhrase(numberArg(args, 'ms'))}.`,
  'line-seen.link-local': () =>
    'Addresses in 169.254.0.0/16 are what a computer gives itself when no DHCP server answers (RFC 3927).',
  'line-seen.holder': (args) =>
    args.holder === undefined
      ? `The system refused port ${textArg(args, 'port')} as taken.`
      : `Port ${textArg(args, 'port')} is held by ${textArg(args, 'holder')}.`,
  'line-seen.other-doors': (args) =>
    `Open beside it: ${textArg(args, 'doors')}. A camera that is set to one of these comes in.`,
  'line-seen.came-within': () =>
    'A camera has come in all the same since the start, such as a stand-in on this computer.',
  'line-seen.forbidden': (args) =>
    `The system lets no ordinary user open port ${textArg(args, 'port')}, which is below 1024.`,
  'line-seen.rule': (args) =>
    textArg(args, 'chain') === ''
      ? `Read in the firewall (${textArg(args, 'kind')}): new connections to ${portsPhrase(args)} are not let in.`
      : `Read in the firewall: ${textArg(args, 'chain')} lets no new connection to ${portsPhrase(args)} in.`,
  'line-seen.rules-open': (args) =>
    `The firewall of this computer was read (${textArg(args, 'kind')}) and lets the passive ports in.`,
  'line-seen.rules-unread': (args) =>
    `The system did not let the station read its firewall (${textArg(args, 'kind')}); an administrator may.`,
  'line-seen.times': (args) => {
    const times = numberArg(args, 'times');
    return `${times === 1 ? 'Seen once' : `Seen ${times} times`}, last ${agoPhrase(args)}, from ${textArg(args, 'address')}.`;
  },
  'line-seen.nothing': (args) =>
    `Nobody has knocked at any door since the station started ${spanPhrase(numberArg(args, 'ms'))} ago.`,
  'line-seen.listening': (args) => `The station listens at ${textArg(args, 'ports')}.`,
  'line-seen.behind-gateway': (args) =>
    `It comes from ${textArg(args, 'address')}, which is in none of the station’s networks.`,
  'line-seen.gateway-face': (args) => `It comes with the router’s own address ${textArg(args, 'address')}.`,
  'line-seen.neighbours': (args) =>
    `Of ${textArg(args, 'network')}, only the router ${textArg(args, 'address')} was ever heard.`,
  'line-seen.no-answer': (args) => `Asked just now, nobody answered at ${textArg(args, 'address')}.`,
  'line-seen.networks': (args) => `The station’s addresses: ${textArg(args, 'addresses')}.`,
  'line-seen.camera-in': (args) =>
    `${Camera(args)} is, or was last, at ${textArg(args, 'address')} in ${textArg(args, 'network')}.`,
  'line-seen.way': (args) =>
    `The system sends what is for ${textArg(args, 'address')} into ${textArg(args, 'interface')}.`,
  'line-seen.double': (args) =>
    `Two hardware addresses answered for ${textArg(args, 'address')}: ${textArg(args, 'hardware')}.`,
  'line-seen.double-since': (args) =>
    `One of them alone has answered for ${spanPhrase(numberArg(args, 'ms'))}; after ${spanPhrase(numberArg(args, 'withinMs'))} this is taken for mended and is no longer said.`,
  'line-seen.user': (args) =>
    args.known === 1 ? 'The user is one of the cameras’.' : 'No camera has that user.',
  'line-seen.tls': (args) => `The handshake ended with ${tlsSeen(textArg(args, 'why'))}.`,
  'line-seen.certificate': (args) =>
    `The station’s certificate is valid since ${textArg(args, 'from')} and until ${textArg(args, 'to')}.`,
  'line-seen.refused': (args) => `${textArg(args, 'verb')} was refused with ${textArg(args, 'reply')}.`,
  'line-seen.disk': (args) =>
    `${sizePhrase(numberArg(args, 'freeBytes'))} are free, and below ${sizePhrase(numberArg(args, 'floorBytes'))} nothing new is taken.`,
  'line-seen.disk-speed': (args) =>
    `Written and synced just now at ${sizePhrase(numberArg(args, 'bytesPerSecond'))} a second.`,
  'line-seen.breaks': (args) => {
    const times = numberArg(args, 'times');
    return `${times === 1 ? 'One upload' : `${times} uploads`} broke off, ${textArg(args, 'name')} last, ${agoPhrase(args)}.`;
  },
  'line-seen.speed': (args) =>
    `Its newest frames came at ${sizePhrase(numberArg(args, 'bytesPerSecond'))} a second.`,
  'line-seen.loss': (args) =>
    `Of the last ${numberArg(args, 'packets')} packets, ${numberArg(args, 'percent')} % came before an earlier one, which was lost on the way.`,
  'line-seen.taken': (args) => `${numberArg(args, 'left')} of the range are left.`,
};

/** The firewall of one computer, the way between, the camera: where something is done. */
export const linePlaces = {
  camera: 'on the camera',
  station: 'on this computer',
  network: 'in the network',
} as const;

/** How sure a finding is, as a person says it. */
export const surePhrases = {
  certain: 'This is certain.',
  likely: 'This is likely.',
  possible: 'This is possible.',
} as const;

function Camera(args: Args): string {
  return args.camera === undefined || args.camera === '' ? 'The camera' : textArg(args, 'camera');
}

function whose(args: Args): string {
  return args.camera === undefined || args.camera === '' ? 'cameras' : textArg(args, 'camera');
}

function orUnknown(args: Args, name: string): string {
  const text = textArg(args, name);
  return text === '' ? 'none that a camera reaches' : text;
}

function agoPhrase(args: Args): string {
  const ms = numberArg(args, 'ms');
  return ms < 10_000 ? 'just now' : `${spanPhrase(ms)} ago`;
}

function tlsSeen(why: string): string {
  switch (why) {
    case 'old-version':
      return 'no common version';
    case 'no-cipher':
      return 'no common cipher';
    case 'not-tls':
      return 'bytes that are no TLS';
    case 'unknown-authority':
      return 'the camera’s word that it does not know who vouches for the station';
    case 'bad-certificate':
      return 'the camera’s word that it does not take the certificate';
    case 'left':
      return 'the camera’s leaving in the middle';
    case 'slow':
      return 'no answer in time';
    default:
      return 'no agreement';
  }
}
