import { type FaultName, type FaultValue, faultFacts, faultNames } from '../stand-in/index.ts';
import { sentence } from '../words/index.ts';

/** What stands under the options: files, faults one by one, output, examples. */
export function standInHelp(): string {
  return `
Files
  Each frame has the name its camera's counter gives it (QMST0001.DNG, the JPEG of it QMST0001.JPG). The raw is a
  DNG, losslessly compressed, with a small, a middle and a full-size preview in front of the raw data. At 24 megapixels
  that is some 26 MB, at the standard 6 some 7. The second camera's names begin with QM02, the third's with QM03.
  With more cameras than users the users are taken in turn.
  A camera that is not let in stops the others.

Faults
  --fault NAME, --fault NAME=VALUE, and @ with the frames it shall happen to: --fault cut=40@2,5. Frames count from 1;
  without @ it happens to every frame (wrap: to the second). With several cameras, faults happen to the first.

${faultNames.map(faultLine).join('\n')}

JSON
  With --json each line of standard output is one step: {"code":"stand-in.sent","args":{…}}. The line stand-in.frame
  tells all of a frame that has been sent: its camera and when the shutter fired, its files with name, size, sha256 and
  whether the station acknowledged them, its faults, and the truth: shot, exposure, offset, blur, patches of the target.
  The exit code is 0 where all frames were acknowledged, 1 where one was not, 2 and 3 where the session failed.

Examples
  Twelve frames, one every 8 seconds, at the pace of a Wi-Fi:
    setside stand-in --port 2121 --user cam1 --password WORD
  Raw and JPEG of 24 megapixels, in bursts of five:
    setside stand-in --port 2121 --user cam1 --password WORD --size 24 --files jpeg,raw --burst 5 --frames 15
  Three cameras at once, the first with a clock two hours slow and a line that breaks at its third frame:
    setside stand-in --port 2121 --user cam1 --password WORD --cameras 3 --fault clock=-120 --fault cut@3
  Encrypted, with the root certificate that was saved from the camera sheet:
    setside stand-in --port 2990 --user cam1 --password WORD --secure implicit --ca root.pem
  The second shot is called by a slate in the third frame, the third by a grey card in the fifth:
    setside stand-in --port 2121 --user cam1 --password WORD --slate QM-26:jug@3 --grey-card 5
  Why does the camera not come through? The same way with its own settings, from another computer of its network:
    setside stand-in --rehearse --host 192.168.7.20 --port 2121 --user cam1 --password WORD
  The same by SFTP, with the host keys of the camera sheet compared:
    setside stand-in --rehearse --sftp --host 192.168.7.20 --port 2222 --user cam1 --password WORD \\
      --host-key SHA256:… --host-key SHA256:…
  A rehearsal of a bad day:
    setside stand-in --port 2121 --user cam1 --password WORD --fault strobe@4 --fault soft=3@6 --fault gap@8
`;
}

function faultLine(name: FaultName): string {
  const { value } = faultFacts[name];
  const does = sentence({ code: `stand-in.fault-${name}`, args: {} });
  return `  ${name.padEnd(10)} ${does}${value === null ? '' : `\n${' '.repeat(13)}${valuePhrase(value)}`}`;
}

function valuePhrase({ from, to, unit, default: standard }: FaultValue): string {
  const withUnit = (figure: number): string => (unit === '' ? `${figure}` : `${figure} ${unit}`);
  return `VALUE from ${from} to ${withUnit(to)}; without one ${withUnit(standard)}`;
}
