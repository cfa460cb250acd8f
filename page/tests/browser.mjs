// Debian's Chromium through playwright-core, with a fresh profile each time.
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export function chromiumPath() {
  return ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find((p) => existsSync(p)) ?? null;
}

/** A browser with one page; 'complaints' gathers console errors and requests to another origin. */
export async function openBrowser(address, options = {}) {
  const profile = mkdtempSync(join(tmpdir(), 'bowlwright-page-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: chromiumPath(),
    headless: true,
    args: FLAGS,
    viewport: { width: 1440, height: 900 },
    ...options,
  });
  const complaints = [];
  const watch = (page) => {
    page.on('console', (m) => {
      if (m.type() === 'error' || m.type() === 'warning') complaints.push(`console: ${m.text()}`);
    });
    page.on('pageerror', (e) => complaints.push(`error: ${e.message}`));
  };
  context.on('request', (r) => {
    const url = r.url();
    if (!url.startsWith(address) && !url.startsWith('data:') && !url.startsWith('blob:')) complaints.push(`another origin: ${url}`);
  });
  context.pages().forEach(watch);
  context.on('page', watch);
  return {
    context,
    page: context.pages()[0] ?? (await context.newPage()),
    complaints,
    close: async () => {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}
