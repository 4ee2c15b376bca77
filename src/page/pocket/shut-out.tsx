import type { ReactNode } from 'react';
import { pocketLabels } from '../../words/index.ts';
import '../style/enter.css';

/** What is left of a page whose link has ended: nothing of what it showed, and what was written here, where anything was. */
export function ShutOut({ children }: { readonly children?: ReactNode }): ReactNode {
  return (
    <main className="enter">
      <div className="enter-card paper" role="alert">
        <h1>{pocketLabels.shutOut}</h1>
        <p>{pocketLabels.shutOutHelp}</p>
        {children}
      </div>
    </main>
  );
}
