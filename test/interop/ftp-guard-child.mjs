/**
 * Runs in a network namespace of its own: opens the station's FTP door as it would be opened and says what a client
 * hears at each address. `node ftp-guard-child.mjs BIND|- ADDRESS…` prints one JSON object, address to first words.
 */
import { connect } from 'node:net';
import { openFtpDoor } from '../../dist/station/ftp-doors.js';

const [bind, ...addresses] = process.argv.slice(2);
const options = { bind: bind === '-' ? null : bind, ftpPorts: [0], passive: { from: 0, to: 0 } };
const codes = [];
const report = ({ finding }) => codes.push(finding.code);
const door = await openFtpDoor(options, { admit: async () => null }, report, null);

const heardAt = (host) =>
  new Promise((resolve) => {
    const socket = connect(door.port, host);
    let heard = '';
    socket.on('data', (bytes) => {
      heard += bytes;
      socket.end('QUIT\r\n');
    });
    socket.on('error', (trouble) => {
      heard ||= trouble.code;
    });
    socket.on('close', () => resolve(heard.slice(0, 12)));
  });

const heard = {};
for (const address of addresses) heard[address] = await heardAt(address);
process.stdout.write(JSON.stringify({ heard, codes: [...new Set(codes)] }));
await door.close();
