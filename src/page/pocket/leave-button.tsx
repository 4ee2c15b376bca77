import { type ReactNode, useState } from 'react';
import { leaveLabels } from '../../words/index.ts';
import { leaveLink } from '../link/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';

interface LeaveButtonProps {
  readonly label: string;
  readonly attempt: (change: Promise<void>) => void;
}

/**
 * This device goes, and is shown the door it came in by; the link itself stays for others. Asked first: a thumb that
 * slips would shut a phone out in the middle of the work.
 */
export function LeaveButton({ label, attempt }: LeaveButtonProps): ReactNode {
  const [asks, setAsks] = useState(false);
  const leave = (): void => {
    setAsks(false);
    attempt(leaveLink().then(() => location.replace('/in')));
  };
  return (
    <>
      <button type="button" onClick={() => setAsks(true)}>
        {label}
      </button>
      <CardDialog title={leaveLabels.question} open={asks} onClose={() => setAsks(false)}>
        <p>{leaveLabels.consequence}</p>
        <button type="button" className="leave-at-once" onClick={leave}>
          {leaveLabels.go}
        </button>
      </CardDialog>
    </>
  );
}
