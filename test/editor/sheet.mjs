// Fills in the parameter sheet as a person does: pick a row, type or choose, come back to the list.

export class ParameterSheet {
  /** @param {import('./workbench.mjs').Workbench} workbench */
  constructor(workbench) {
    this.workbench = workbench;
  }

  /** Waits until the list is there. */
  async shown() {
    await this.workbench.quickInputTitled(/: parameters$/);
    await this.workbench.quickRows().first().waitFor();
  }

  /** Every row as a screen reader speaks it. */
  async rows() {
    await this.shown();
    return this.workbench.quickPickRows();
  }

  /** Changes one parameter and waits for the list to come back. */
  async set(name, value) {
    await this.openField(name);
    await this.workbench.typeInQuickInput(value);
    await this.workbench.page.keyboard.press('Enter');
    await this.shown();
  }

  /** Picks a parameter's row, which opens a field or a list of choices for it. */
  async openField(name) {
    await this.shown();
    await this.workbench.chooseQuickPickRow(name);
    await this.workbench.quickInputTitled(new RegExp(`^${name}: `));
  }

  async setAll(values) {
    for (const [name, value] of Object.entries(values)) await this.set(name, value);
  }

  /** Chooses the row that ends the sheet: it inserts a new block or puts an edited one in place. */
  async confirm(label) {
    await this.shown();
    await this.workbench.chooseQuickPickRow(label);
    await this.workbench.quickInputClosed();
  }

  /** Leaves the sheet as somebody does who is interrupted. */
  async leave() {
    await this.workbench.page.keyboard.press('Escape');
    await this.workbench.quickInputClosed();
  }
}
