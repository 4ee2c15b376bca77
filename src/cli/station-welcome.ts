import { addressForCameras, type RunningStation } from '../station/index.ts';
import { sentence } from '../words/index.ts';

/** What a person needs to begin: where the page is, what to enter on the camera, what is amiss. */
export function welcome(
  station: RunningStation,
  passive: { readonly from: number; readonly to: number },
): string {
  const { ready, troubles, demo } = station;
  const lines = [
    '',
    ...(demo ? demoLines : []),
    `  The page       ${ready.web}`,
    `  Kept in        ${ready.home}`,
    '',
  ];
  for (const camera of ready.cameras) {
    lines.push(
      `  Enter on the camera (${camera.name}):`,
      `    server       ${addressForCameras(station.addresses)}`,
      `    port         ${ready.ftp ?? '-'}`,
      `    protocol     FTP, passive mode on (data ports ${passive.from}-${passive.to})`,
      ...(ready.ftps === null
        ? []
        : [`    or           FTPS, implicit, port ${ready.ftps}; explicit, the port for FTP`]),
      ...(ready.sftp === null ? [] : [`    or           SFTP, port ${ready.sftp}`]),
      `    user         ${camera.user}`,
      `    password     ${camera.password}`,
      `    folder       leave empty, or /`,
      '',
    );
  }
  for (const trouble of troubles) lines.push(`  Note: ${sentence(trouble)}`);
  lines.push(
    '  Plain FTP sends the password in clear: use it on a network of your own.',
    '  Ctrl+C stops the station.',
    '',
    '',
  );
  return lines.join('\n');
}

const demoLines: readonly string[] = [
  '  This is the demo: a pretend camera photographs a pottery that does not exist.',
  '  Each start adds up to half a gigabyte to its home; the whole folder may be deleted afterwards.',
  '',
];
