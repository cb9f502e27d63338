// Finds and starts the browser that the editor tests drive. Knows nothing of editors.
import { chromium } from 'playwright-core';
import { findCommand } from '../../client/host/desktop.mjs';

const usualCommands = ['chromium', 'chromium-browser', 'google-chrome'];

// Nothing goes out to the network by itself, and the sandbox of the browser is not available to root in a container.
const quietOptions = [
  '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync',
];

/**
 * Starts a browser without a window.
 * @throws {Error} when there is none on the path; BLOCKWRIGHT_CHROMIUM names one elsewhere
 */
export function launchChromium() {
  const executablePath = process.env.BLOCKWRIGHT_CHROMIUM || usualCommands.map(findCommand).find(Boolean);
  if (!executablePath) throw new Error('no Chromium on the path; install it or name it in BLOCKWRIGHT_CHROMIUM');
  return chromium.launch({ executablePath, args: quietOptions });
}
