import { check, notices, dismiss, ready, trouble, said } from './state';
import { served } from './texts';
import { Head } from './Head';
import { Reading } from './reading/Reading';
import { DaysPlace } from './days/Place';
import { Ribbon } from './reading/Ribbon';
import { Reasons } from './reasons/Reasons';
import { Sheet } from './Sheet';
import { Dangers, Stale, Verdict } from './Verdict';
import { SheetView } from './writing/SheetView';
import { Writing } from './writing/Writing';

export function App() {
  return (
    <>
      <a class="skip" href="#writing">
        To the writing
      </a>
      <svg class="hatch unseen" aria-hidden="true">
        <defs>
          <pattern id="hatching" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <line x1="0" x2="0" y1="0" y2="4" />
          </pattern>
        </defs>
      </svg>
      <Head />
      <main>
        {trouble.value !== '' && (
          <p class="trouble" role="alert">
            Bowlwright cannot work anything out: {trouble.value}. What you write is kept all the same.
          </p>
        )}
        <Dangers />
        <Stale />
        <Verdict />
        <Ribbon />
        <div class="places">
          <Writing />
          <Reading />
          <Reasons />
        </div>
        <DaysPlace />
      </main>
      <Sheet />
      <SheetView />
      <Notices />
      <Foot />
      <div class="heard" aria-live="polite">
        {said.value}
      </div>
      {!ready.value && trouble.value === '' && !check.value && <p class="waiting">Bowlwright is opening its food library.</p>}
    </>
  );
}

function Notices() {
  if (notices.value.length === 0) return null;
  return (
    <div class="notices" role="status">
      {notices.value.map((n) => (
        <p key={n.id}>
          <span class="said">{n.words}</span>
          {(n.acts ?? []).map((a) => (
            <button type="button" class="quiet" onClick={a.act}>
              {a.words}
            </button>
          ))}
          <button type="button" class="quiet" aria-label="Close this note" onClick={() => dismiss(n.id)}>
            close
          </button>
        </p>
      ))}
    </div>
  );
}

function Foot() {
  return (
    <footer>
      <p>
        For one healthy adult dog or cat. Everything is worked out in this browser;{' '}
        {served.value ? 'your texts are kept by the program that gives out this page, and go nowhere else' : 'nothing is sent anywhere'}. A bowl that looks right
        here does not replace a veterinarian who knows the animal.
      </p>
      <p class="no-print licences">
        <a href="./LICENSE.txt">Licence</a> <a href="./NOTICES.txt">Third parties: food tables, fonts, libraries</a>
      </p>
    </footer>
  );
}
