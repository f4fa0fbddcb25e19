package main

import "toplit/work"

type demoCommand struct {
	Dir string `arg:"" name:"DIR" help:"Folder the files go to; made when it is not there."`
}

func (demoCommand) Help() string {
	return `Writes design files of invented stoves, labelled so: a tea stove of two cans for pellets, a twig stove in inches and cups, and a can blown by fans. Copy one and put your own sizes in. A file that you have changed is kept.

    toplit demo mine
    toplit predict mine/tea-stove.toml` + exitCodes
}

func (c *demoCommand) Run(a *app) error {
	d, err := work.Demo(work.DemoOptions{Dir: c.Dir})
	if err != nil {
		return err
	}
	return a.finish(new(outputs), d.WriteText, d.WriteJSON)
}
