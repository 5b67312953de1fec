"""The pure part of worksheets: units, inputs, results. It knows neither database nor clock."""
