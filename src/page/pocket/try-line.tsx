import { type ReactNode, useState } from 'react';
import type { LineRehearsal } from '../../contract/index.ts';
import { rehearsalLabels, sentence } from '../../words/index.ts';
import { rehearseLine, wordsOf } from '../link/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';

/** Held beside the camera, the phone tries the way that the camera's files take. */
export function TryLine(): ReactNode {
  const [open, setOpen] = useState(false);
  const [running, setRunning] = useState(false);
  const [said, setSaid] = useState<readonly string[]>([]);
  const run = (): void => {
    setRunning(true);
    setSaid([]);
    rehearseLine()
      .then(
        ({ findings }: LineRehearsal) => setSaid(findings.map((finding) => sentence(finding))),
        (thrown: unknown) => setSaid([wordsOf(thrown, rehearsalLabels.failed)]),
      )
      .finally(() => setRunning(false));
  };
  return (
    <>
      <button type="button" onClick={() => setOpen(true)}>
        {rehearsalLabels.button}
      </button>
      <CardDialog title={rehearsalLabels.title} open={open} onClose={() => setOpen(false)}>
        <p>{rehearsalLabels.lead}</p>
        <button type="button" className="press" disabled={running} onClick={run}>
          {rehearsalLabels.start}
        </button>
        <div className="try-line-said" role="status">
          {running ? <p>{rehearsalLabels.running}</p> : null}
          {said.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      </CardDialog>
    </>
  );
}
