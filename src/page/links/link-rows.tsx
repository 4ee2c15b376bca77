import { type ReactNode, useState } from 'react';
import type { Link } from '../../contract/index.ts';
import { linkLabels, pageLabels, scopeWords, sharedWords } from '../../words/index.ts';
import { endLink, wordsOf } from '../link/index.ts';
import { clockTime, dayAndTime } from '../set/clock.ts';

interface LinkRowsProps {
  readonly links: readonly Link[];
  readonly onEnded: (id: string) => void;
}

/** Every link that has not ended. Ending one needs no second question: another is made in a moment. */
export function LinkRows({ links, onEnded }: LinkRowsProps): ReactNode {
  const [refusal, setRefusal] = useState('');
  const end = (id: string): void => {
    endLink(id).then(
      () => {
        setRefusal('');
        onEnded(id);
      },
      (thrown: unknown) => setRefusal(wordsOf(thrown, pageLabels.notTaken)),
    );
  };
  return (
    <>
      {links.length === 0 ? <p>{linkLabels.none}</p> : null}
      <ul className="link-rows">
        {links.map((link) => (
          <li key={link.id}>
            <strong>{link.name}</strong>
            <span>
              {link.share === null
                ? scopeWords[link.scope]
                : sharedWords(link.share.job, link.share.shots.length)}
            </span>
            <span>
              {devicesWords(link)}, {linkLabels.ends} {dayAndTime(Date.parse(link.ends))}
            </span>
            <button type="button" onClick={() => end(link.id)} aria-label={`${linkLabels.end}: ${link.name}`}>
              {linkLabels.end}
            </button>
          </li>
        ))}
      </ul>
      <p role="status">{refusal}</p>
    </>
  );
}

function devicesWords({ devices, lastSeen }: Link): string {
  const count = `${devices} ${devices === 1 ? linkLabels.device : linkLabels.devices}`;
  if (devices === 0) return count;
  const seen =
    lastSeen === null ? linkLabels.neverSeen : `${linkLabels.lastSeen} ${clockTime(Date.parse(lastSeen))}`;
  return `${count}, ${seen}`;
}
