// Drives an editor window as a person does: mouse and keys in, what is on the screen out. Knows the window's parts and
// nothing of the extension. Every wait is for a state of the window.
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const pictureFolder = fileURLToPath(new URL('output', import.meta.url));

const textLines = '.editor-instance .view-lines';
const hoverBox = '.monaco-hover:not(.hidden) .monaco-hover-content';
const quickInput = '.quick-input-widget:visible';

// In the title bar, beside the buttons: nothing there answers to the mouse.
const emptySpot = { x: 250, y: 15 };

/** One editor window. */
export class Workbench {
  /**
   * @param {import('playwright-core').Page} page
   * @param {string} folder the opened folder, on this machine's disk
   */
  constructor(page, folder) {
    this.page = page;
    this.folder = folder;
  }

  /** Loads the window and waits until it shows the text of an editor. */
  async load(address) {
    await this.page.goto(address);
    await this.page.locator(`${textLines} .view-line span span`).first().waitFor();
  }

  /** Opens a file of the folder by its name, as with the file picker. */
  async openFile(name) {
    await this.openQuickInput('Control+P', name);
    await this.quickRows().filter({ hasText: name }).first().waitFor();
    await this.page.keyboard.press('Enter');
    await this.page.locator('.tab.active', { hasText: name }).waitFor();
    await this.page.locator(`${textLines} .view-line`).first().waitFor();
  }

  /** Puts the cursor at a line and column, both counted from 1, and brings them into view. */
  async goTo(line, column = 1) {
    await this.focusText();
    await this.openQuickInput('Control+G', `:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await this.page.locator('.statusbar-item', { hasText: `Ln ${line}, Col ${column}` }).waitFor();
  }

  /**
   * The text of a file once it is as wanted, byte for byte: the active editor is saved and the file read from the disk.
   * @param {string} name of the file that the active editor shows
   * @param {(text: string) => boolean} isWanted
   */
  async editorText(name, isWanted) {
    return this.until(async () => {
      await this.page.keyboard.press('Control+S');
      await this.page.locator('.tab.active.dirty').waitFor({ state: 'detached' });
      const text = readFileSync(join(this.folder, name), 'utf8');
      return isWanted(text) ? text : undefined;
    }, `the wanted text in ${name}`);
  }

  async undo() {
    await this.focusText();
    await this.page.keyboard.press('Control+Z');
  }

  /**
   * Rests the mouse on a word and resolves to the hover's text once it has one that matches. A hover that was asked for
   * before the extension was ready stays empty, so the mouse leaves and comes back until there is one.
   * @param {{ line: number, column: number, length?: number }} place counted from 1
   * @param {RegExp} wanted
   */
  async hover({ line, column, length = 1 }, wanted) {
    await this.goTo(line, column);
    const { x, y } = await this.pointOf(line, column, length);
    return this.until(async () => {
      await this.page.mouse.move(emptySpot.x, emptySpot.y);
      await this.page.locator(hoverBox).waitFor({ state: 'hidden' });
      await this.page.mouse.move(x, y);
      return this.hoverText(wanted);
    }, `a hover that matches ${wanted} at ${line}:${column}`);
  }

  /** The text of the visible hover when it matches within a few seconds, else undefined. */
  async hoverText(wanted) {
    const box = this.page.locator(hoverBox).filter({ hasText: wanted }).first();
    const shown = await box.waitFor({ timeout: 2000 }).then(() => true, () => false);
    return shown ? box.innerText() : undefined;
  }

  /** Contrast of the visible hover's letters to its ground, as the web's accessibility guidelines (WCAG 2) define it. */
  hoverContrast() {
    return this.page.locator(hoverBox).first().evaluate(contrastOfLetters);
  }

  /** The middle of some characters on the screen. */
  async pointOf(line, column, length) {
    const point = await this.page.evaluate(middleOfCharacters, { textLines, line, column, length });
    if (point === undefined) throw new Error(`line ${line}, column ${column} is not on the screen`);
    return point;
  }

  /** Runs a command by its title in the command palette. */
  async runCommand(title) {
    await this.openQuickInput('F1', `>${title}`);
    await this.quickRows().filter({ hasText: title }).first().click();
  }

  /** The titles that the lightbulb offers at the cursor, or undefined while it offers nothing. */
  async lightbulbTitles() {
    await this.page.keyboard.press('Control+.');
    const rows = this.page.locator('.action-widget .monaco-list-row.action');
    const shown = await rows.first().waitFor({ timeout: 5000 }).then(() => true, () => false);
    return shown ? rows.allInnerTexts() : undefined;
  }

  /** Chooses one of the lightbulb's actions at the cursor. */
  async chooseLightbulbAction(title) {
    await this.until(async () => (await this.lightbulbTitles())?.some((each) => each.includes(title)), `the action "${title}"`);
    await this.page.locator('.action-widget .monaco-list-row.action', { hasText: title }).first().click();
  }

  /** Answers a question that stands over the window and resolves to what it said. */
  async answerDialog(button) {
    const dialog = this.page.locator('.monaco-dialog-box');
    await dialog.waitFor();
    const text = await dialog.innerText();
    await dialog.locator('.monaco-button', { hasText: button }).click();
    await dialog.waitFor({ state: 'detached' });
    return text;
  }

  quickRows() {
    return this.page.locator(`${quickInput} .quick-input-list .monaco-list-row`);
  }

  /** What the quick pick lists, top to bottom, each row as the text that a screen reader speaks; scrolls through it. */
  async quickPickRows() {
    await this.quickRows().first().waitFor();
    const list = this.page.locator(`${quickInput} .quick-input-list .monaco-list`);
    const seen = new Map();
    await list.hover();
    // The chosen row may stand far down, so the walk starts at the top.
    await this.scrollToTop(list);
    await this.until(async () => {
      for (const [index, text] of await list.evaluate(visibleRows)) seen.set(index, text);
      await this.page.mouse.wheel(0, 100);
      return seen.size >= (await this.quickRows().first().evaluate((row) => Number(row.getAttribute('aria-setsize'))));
    }, 'all rows of the quick pick', 300);
    return [...seen].sort(([one], [other]) => one - other).map(([, text]) => text);
  }

  async scrollToTop(list) {
    await this.until(async () => {
      await this.page.mouse.wheel(0, -100_000);
      return list.locator('[data-index="0"]').isVisible();
    }, 'the first row', 300);
  }

  /** Chooses the row with a label, which the filter brings into view. */
  async chooseQuickPickRow(label) {
    await this.typeInQuickInput(label);
    const exactly = new RegExp(`^\\s*${label}\\s*$`);
    await this.quickRows().filter({ has: this.page.locator('.label-name', { hasText: exactly }) }).first().click();
  }

  /** Opens a quick input by a key and types into it. One that is just closing takes no letters, so it is asked for again. */
  async openQuickInput(key, text) {
    await this.until(async () => {
      await this.page.keyboard.press(key);
      const field = this.page.locator(`${quickInput} .quick-input-box input`);
      return field.fill(text, { timeout: 2000 }).then(() => true, () => false);
    }, `the quick input of ${key}`);
  }

  /** Replaces what stands in the field of the quick pick or input box. */
  async typeInQuickInput(text) {
    const field = this.page.locator(`${quickInput} .quick-input-box input`);
    await field.waitFor();
    await field.fill(text);
  }

  /** Waits for a message under an input box, such as why a value is refused, and resolves to it. */
  async quickInputMessage(wanted) {
    const message = this.page.locator(`${quickInput} .quick-input-message`, { hasText: wanted });
    await message.waitFor();
    return message.innerText();
  }

  /** Waits until the quick pick or input box with a title is there. */
  async quickInputTitled(title) {
    await this.page.locator(`${quickInput} .quick-input-title`, { hasText: title }).waitFor();
  }

  async quickInputClosed() {
    await this.page.locator('.quick-input-widget').waitFor({ state: 'hidden' });
  }

  /** Waits until the status bar counts neither errors nor warnings. */
  async noProblems() {
    await this.page.locator('[id="status.problems"]:not([aria-label*="Error"]):not([aria-label*="Warning"])').waitFor();
  }

  /** Saves a picture of the window beside the test output. */
  async screenshot(name) {
    mkdirSync(pictureFolder, { recursive: true });
    await this.page.screenshot({ path: join(pictureFolder, `${name}.png`) });
  }

  async focusText() {
    await this.page.keyboard.press('Control+1');
    await this.page.locator('.editor-instance .monaco-editor.focused').waitFor();
  }

  /** Repeats a look until it gives something; the test's own limit ends a wait that has no end. */
  async until(look, what, attempts = 30) {
    for (let attempt = 0; attempt < attempts; attempt += 1) {
      const found = await look();
      if (found) return found;
      await this.page.evaluate(() => new Promise((resolve) => requestAnimationFrame(resolve)));
    }
    throw new Error(`waited in vain for ${what}`);
  }
}

/** Runs in the page: rows by their position in the whole list. */
function visibleRows(list) {
  return [...list.querySelectorAll('.monaco-list-row')].map((row) => [Number(row.getAttribute('data-index')), row.getAttribute('aria-label')]);
}

/** Runs in the page: the line with a number is the one that stands as high as the number in the margin. */
function middleOfCharacters({ textLines, line, column, length }) {
  const number = [...document.querySelectorAll('.editor-instance .line-numbers')].find((each) => each.textContent === String(line));
  const top = number?.getBoundingClientRect().top;
  const row = [...document.querySelectorAll(`${textLines} .view-line`)].find((each) => Math.abs(each.getBoundingClientRect().top - top) < 2);
  if (row === undefined) return undefined;
  const range = document.createRange();
  const place = (offset) => {
    const walker = document.createTreeWalker(row, NodeFilter.SHOW_TEXT);
    let left = offset;
    for (let node = walker.nextNode(); node; left -= node.length, node = walker.nextNode()) {
      if (left <= node.length) return [node, left];
    }
    return undefined;
  };
  const [start, end] = [place(column - 1), place(column - 1 + length)];
  if (start === undefined || end === undefined) return undefined;
  range.setStart(...start);
  range.setEnd(...end);
  const box = range.getBoundingClientRect();
  return { x: box.left + box.width / 2, y: box.top + box.height / 2 };
}

/** Runs in the page: relative luminance of both colours, the lighter over the darker one. */
function contrastOfLetters(box) {
  const luminance = (colour) => {
    const [red, green, blue] = colour.match(/[\d.]+/g).slice(0, 3).map((each) => {
      const share = Number(each) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const letters = luminance(getComputedStyle(box).color);
  const ground = luminance(getComputedStyle(box.closest('.monaco-hover')).backgroundColor);
  return (Math.max(letters, ground) + 0.05) / (Math.min(letters, ground) + 0.05);
}
