import { durationPhrase, numberArg, type SentenceTable, sizePhrase, textArg } from './phrases.ts';

/** What a rehearsal of a camera's way found. Codes `rehearsal.*` come from stand-in. */
export const rehearsalSentences: SentenceTable = {
  'rehearsal.reached': (args) => `${textArg(args, 'host')} answers at port ${textArg(args, 'port')}.`,
  'rehearsal.greeted': () => 'It greets as a station does.',
  'rehearsal.secured': (args) =>
    `The line is encrypted (${textArg(args, 'version')}) and the certificate is the station’s.`,
  'rehearsal.logged-in': (args) => `User ${textArg(args, 'user')} and the password are taken.`,
  'rehearsal.logged-in-known': (args) =>
    `User ${textArg(args, 'user')} and the password are taken, and the host key is one of those you gave.`,
  'rehearsal.data-open': () => 'A passive data connection opens.',
  'rehearsal.sent': (args) => {
    const [bytes, ms] = [numberArg(args, 'bytes'), numberArg(args, 'ms')];
    const rate = ms > 0 ? ` (${sizePhrase((bytes / ms) * 1000)} a second)` : '';
    return `${textArg(args, 'name')}, ${sizePhrase(bytes)}, was sent in ${durationPhrase(ms)}${rate} and is kept, set apart as a test.`;
  },

  'rehearsal.refused': (args) =>
    `Nothing listens at ${textArg(args, 'host')}, port ${textArg(args, 'port')}, or a firewall refuses it: compare the port with the camera sheet, and look whether the station runs.`,
  'rehearsal.silent': (args) =>
    `Nobody answers at ${textArg(args, 'host')}, port ${textArg(args, 'port')}: a firewall drops it, or the station’s address is another now. Run setside line on the station.`,
  'rehearsal.no-way': (args) =>
    `There is no way from here to ${textArg(args, 'host')}: join the station’s network.`,
  'rehearsal.nobody-there': (args) =>
    `Nobody in this network has the address ${textArg(args, 'host')}: compare it with the camera sheet, and look whether the station’s computer is on and in this network.`,
  'rehearsal.no-name': (args) =>
    `Nobody knows the name ${textArg(args, 'host')} here: enter the address in figures, as on the camera sheet.`,
  'rehearsal.reach-failed': (args) =>
    `${textArg(args, 'host')} cannot be reached at port ${textArg(args, 'port')}: ${textArg(args, 'why')}.`,
  'rehearsal.not-ftp': (args) =>
    `What answers at port ${textArg(args, 'port')} does not greet as FTP: it may be another door of the station, or encrypted from the first byte. Compare protocol and port with the camera sheet.`,
  'rehearsal.not-sftp': (args) =>
    `What answers at port ${textArg(args, 'port')} does not speak SFTP. Compare protocol and port with the camera sheet.`,
  'rehearsal.sent-away': () =>
    'The station sends this address away for now, after too many connections or wrong log-ins: wait a minute.',
  'rehearsal.untrusted': () =>
    'The certificate is signed by nobody that is known here: give the root certificate of the camera sheet with --ca. A camera needs it imported too.',
  'rehearsal.not-now': () =>
    'The certificate is not valid at this time: look at date and time here, and on the camera.',
  'rehearsal.other-name': (args) =>
    `The certificate does not name ${textArg(args, 'host')}: use the address on the camera sheet. After a change of address the station renews it within seconds.`,
  'rehearsal.no-tls': () =>
    'The station speaks no TLS at this port. Compare protocol and port with the camera sheet.',
  'rehearsal.tls-failed': (args) =>
    `No encryption came about: ${textArg(args, 'why')}. Compare explicit and implicit, and the port, with the camera sheet.`,
  'rehearsal.other-host-key': (args) =>
    `The host key at ${textArg(args, 'host')}, port ${textArg(args, 'port')} is ${textArg(args, 'why')}, none of those you gave: give every one of the camera sheet with --host-key. If it stands on none, this is another computer, or the station’s folder is a new one; no password was sent.`,
  'rehearsal.log-in-refused': () =>
    'User or password is wrong, or this address or this way in is not allowed for the camera: compare them with the camera sheet.',
  'rehearsal.log-in-failed': (args) => `The log-in came to nothing: ${textArg(args, 'why')}.`,
  'rehearsal.data-shut': () =>
    'The log-in works and the data connection does not open: the passive ports of the camera sheet are shut by a firewall. Run setside line on the station.',
  'rehearsal.data-failed': (args) => `The data connection came to nothing: ${textArg(args, 'why')}.`,
  'rehearsal.no-room': () => 'The disk of the station is full: make room there.',
  'rehearsal.send-refused': (args) => `The station refused the file: ${textArg(args, 'why')}.`,
  'rehearsal.send-broke': (args) =>
    `The file broke off on the way (${textArg(args, 'why')}): the line is weak, or something between lets no long connection live.`,

  'rehearsal.own-computer': () =>
    'This was tried on the station’s own computer: neither network nor firewall has been tried. Do it from another one in the camera’s network.',
  'rehearsal.from': (args) =>
    `This was tried from ${textArg(args, 'local')}; the camera has another address, and may be held to one.`,
  'rehearsal.told-elsewhere': (args) =>
    `For data the station tells ${textArg(args, 'told')}, though it was reached at ${textArg(args, 'remote')}: a router between translates addresses. A camera that believes it sends nothing; use SFTP, or bring both into one network.`,
  'rehearsal.host-key': (args) =>
    `The host key is ${textArg(args, 'hostKey')}: compare it with the camera sheet, or give those of the sheet with --host-key.`,
  'rehearsal.works': () =>
    'The way is open with these settings. If the camera fails all the same, the difference is in the camera: compare its menu with the camera sheet line by line (passive mode, capitals, a space at an end), then its own network and address.',
  'rehearsal.fails': () =>
    'The way is not open with these settings: a camera with the same ones fails here too.',

  'rehearsal.device-through': (args) =>
    `This device reaches the station: ${sizePhrase(numberArg(args, 'bytes'))} in ${durationPhrase(numberArg(args, 'ms'))}, ${sizePhrase(numberArg(args, 'bytesPerSecond'))} a second.`,
  'rehearsal.device-beside': (args) => `It is in the same network as ${textArg(args, 'camera')}.`,
  'rehearsal.device-elsewhere': (args) =>
    `It is in another network than ${textArg(args, 'camera')} was last: join that one and try again.`,
  'rehearsal.device-other-address': (args) =>
    `${textArg(args, 'camera')} has another address of the station entered than the one this device came to: compare it with the camera sheet.`,
  'rehearsal.device-faster': (args) =>
    `${textArg(args, 'camera')} brings ${sizePhrase(numberArg(args, 'cameraBytesPerSecond'))} a second only: held beside it, this device shows that the network can do more, and that the camera or its antenna is what is slow.`,
  'rehearsal.device-slower': (args) =>
    `${textArg(args, 'camera')} brings ${sizePhrase(numberArg(args, 'cameraBytesPerSecond'))} a second, more than this device.`,
  'rehearsal.device-doors-open': () =>
    'The network alone was tried, by HTTP. The firewall of the station lets the cameras’ doors in too.',
  'rehearsal.device-doors-shut': () =>
    'The network alone was tried, by HTTP. The firewall of the station shuts doors of the cameras: ask the operator to open the Line page.',
  'rehearsal.device-doors-unknown': () =>
    'The network alone was tried, by HTTP: whether the cameras’ doors are open, setside stand-in --rehearse tells from another computer.',
};
