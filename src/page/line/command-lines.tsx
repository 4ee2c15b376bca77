import { type ReactNode, useState } from 'react';
import { lineLabels } from '../../words/index.ts';

interface CommandLinesProps {
  readonly commands: readonly string[];
  /** What is copied, for who cannot see which. */
  readonly name: string;
}

/** Lines for a terminal, to copy. Nothing here runs them. */
export function CommandLines({ commands, name }: CommandLinesProps): ReactNode {
  const [copied, setCopied] = useState(false);
  if (commands.length === 0) return null;
  const text = commands.join('\n');
  // Without encryption a browser hands out no clipboard: the lines can be marked and copied by hand.
  const clipboard = globalThis.isSecureContext ? navigator.clipboard : undefined;
  return (
    <div className="command-lines">
      <pre>
        <code>{text}</code>
      </pre>
      {clipboard === undefined ? null : (
        <button
          type="button"
          className="press"
          aria-label={`${lineLabels.copy}: ${name}`}
          onClick={() =>
            clipboard.writeText(text).then(
              () => setCopied(true),
              () => setCopied(false),
            )
          }
        >
          {lineLabels.copy}
        </button>
      )}
      <span role="status">{copied ? lineLabels.copied : ''}</span>
    </div>
  );
}
