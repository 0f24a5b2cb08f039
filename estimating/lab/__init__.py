"""Settings of the JupyterLab that the workbook is opened in; `estimating.start` hands this folder to it."""
