/** What can be folded away stays as it was left: while the text changes, and when the page is opened again. */
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { printing, unfolded } from './view';

export function setFold(name: string, open: boolean): void {
  if (printing.value || open === unfolded.value.has(name)) return;
  const next = new Set(unfolded.value);
  if (open) next.add(name);
  else next.delete(name);
  unfolded.value = next;
}

/** 'print': unfolded on paper. 'seen' hears whether it is open. */
export function Fold(p: { name: string; class?: string; summary: ComponentChildren; print?: boolean; seen?: (open: boolean) => void; children: ComponentChildren }) {
  const open = unfolded.value.has(p.name) || (p.print === true && printing.value);
  useEffect(() => p.seen?.(open), [open]);
  return (
    <details class={p.class} open={open} onToggle={(e) => setFold(p.name, e.currentTarget.open)}>
      <summary>{p.summary}</summary>
      {p.children}
    </details>
  );
}
