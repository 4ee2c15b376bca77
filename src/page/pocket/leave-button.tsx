import type { ReactNode } from 'react';
import { leaveLink } from '../link/index.ts';

interface LeaveButtonProps {
  readonly label: string;
  readonly attempt: (change: Promise<void>) => void;
}

/** This device goes, and is shown the door it came in by; the link itself stays for others. */
export function LeaveButton({ label, attempt }: LeaveButtonProps): ReactNode {
  return (
    <button type="button" onClick={() => attempt(leaveLink().then(() => location.replace('/in')))}>
      {label}
    </button>
  );
}
